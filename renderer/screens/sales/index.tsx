import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { useKeys } from '../../components/keys/use-keys.ts';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { NewRecord } from './new-record.tsx';
import { NothingYet } from './nothing-yet.tsx';
import { PasteScreen } from './paste/paste-screen.tsx';
import { SalesList } from './sales-list.tsx';

const Records = () => {
  const sales = useQuery({ queryKey: ['sales'], queryFn: () => api.sales.list({}) });
  const assumptions = useQuery({ queryKey: ['assumptions'], queryFn: () => api.collection.assumptions() });
  const { data: summary } = useSummary();
  const [adding, setAdding] = useState(false);
  const [added, setAdded] = useState<number | null>(null);
  const [, navigate] = useLocation();
  useKeys('Sale records', [
    { keys: 'mod+I Insert', does: 'Add a sale record', run: () => setAdding(true) },
    { keys: 'mod+J alt+Insert', does: 'Paste sales', run: () => navigate('/paste') },
  ]);
  const rows = sales.data;
  const known = assumptions.data?.body.sourceReliability;
  const sources = useMemo(
    () => [...new Set([...Object.keys(known ?? {}), ...(rows ?? []).map(row => row.source)])].filter(Boolean),
    [known, rows],
  );
  const choices = useMemo(() => sources.map(source => ({ value: source, label: source })), [sources]);
  if (sales.error) return <ErrorState error={sales.error} retry={() => void sales.refetch()} />;
  if (!rows || !summary) return <LoadingState label="Reading the sale records" />;
  const add = () => setAdding(true);
  return (
    <>
      {rows.length === 0 ? (
        <NothingYet castings={summary.counts.castings} onAdd={add} />
      ) : (
        <SalesList all={rows} sources={sources} summary={summary} added={added} onAdd={add} />
      )}
      <NewRecord
        opened={adding}
        currency={summary.reportingCurrency}
        today={summary.today}
        sources={choices}
        onAdded={setAdded}
        onClose={() => setAdding(false)}
      />
    </>
  );
};

const SalesScreen = () => (
  <Switch>
    <Route path="/paste">
      <PasteScreen />
    </Route>
    <Route>
      <Records />
    </Route>
  </Switch>
);

export default SalesScreen;

import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { servedSaleFilter } from '../../../valuation/reading/list-address.ts';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { useKeys } from '../../components/keys/use-keys.ts';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { NewRecord } from './new-record.tsx';
import { NothingYet } from './nothing-yet.tsx';
import { PasteScreen } from './paste/paste-screen.tsx';
import { SalesList } from './sales-list.tsx';
import { SoldScreen } from './sold/sold-screen.tsx';
import { useSaleFilter } from './use-sale-list.ts';

const Records = () => {
  const filter = useSaleFilter();
  const served = useMemo(() => servedSaleFilter(filter), [filter]);
  const facts = useQuery({
    queryKey: ['sales', 'facts', served],
    queryFn: () => api.sales.facts(served),
    placeholderData: keepPreviousData,
  });
  const { data: summary } = useSummary();
  const [adding, setAdding] = useState(false);
  const [added, setAdded] = useState<number | null>(null);
  const [, navigate] = useLocation();
  useKeys('Sale records', [
    { keys: 'mod+I Insert', does: 'Add a sale record', run: () => setAdding(true) },
    { keys: 'mod+J alt+Insert', does: 'Paste sales', run: () => navigate('/paste') },
  ]);
  const sources = facts.data?.sources;
  const choices = useMemo(() => (sources ?? []).map(source => ({ value: source, label: source })), [sources]);
  if (facts.error) return <ErrorState error={facts.error} retry={() => void facts.refetch()} />;
  if (!facts.data || !summary) return <LoadingState label="Reading the sale records" />;
  const add = () => setAdding(true);
  return (
    <>
      {facts.data.records === 0 ? (
        <NothingYet castings={summary.counts.castings} onAdd={add} />
      ) : (
        <SalesList
          facts={facts.data}
          filter={filter}
          sources={choices}
          summary={summary}
          added={added}
          onAdd={add}
        />
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
    <Route path="/sold">
      <SoldScreen />
    </Route>
    <Route>
      <Records />
    </Route>
  </Switch>
);

export default SalesScreen;

import { useQuery } from '@tanstack/react-query';
import { useMemo, useRef } from 'react';
import { useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { useSummary } from '../../api/use-summary.ts';
import { DataGrid } from '../../components/data-grid/data-grid.tsx';
import type { GridHandle } from '../../components/data-grid/types.ts';
import { counted } from '../../components/format.ts';
import { useKeys } from '../../components/keys/use-keys.ts';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { ExportMenu } from '../../components/saved-views/export-menu.tsx';
import { readerWords } from '../../components/words.ts';
import { ButtonLink } from './button-link.tsx';
import classes from './lots.module.css';
import { lotColumns } from './lots-columns.tsx';

const ways = (
  <>
    <ButtonLink href="/import">Import a spreadsheet</ButtonLink>
    <ButtonLink href="/new" primary>
      New lot
    </ButtonLink>
  </>
);

/** Every purchase: how far its cars are catalogued, and what they are worth against what they cost. */
export const LotsList = () => {
  const lots = useQuery({ queryKey: ['lots'], queryFn: () => api.lots.list() });
  const { data: summary } = useSummary();
  const [, navigate] = useLocation();
  const grid = useRef<GridHandle>(null);
  useKeys('Lots', [
    { keys: 'N', does: 'New lot', run: () => navigate('/new') },
    { keys: 'I', does: 'Import a spreadsheet', run: () => navigate('/import') },
  ]);
  const rows = lots.data;
  const currency = summary?.reportingCurrency;
  const columns = useMemo(() => (rows && currency ? lotColumns(rows, currency) : []), [rows, currency]);
  if (lots.error) return <ErrorState error={lots.error} retry={() => void lots.refetch()} />;
  if (!rows || !currency) return <LoadingState />;
  if (rows.length === 0)
    return (
      <>
        <PageHeader title="Lots" facts="None yet" />
        <EmptyState title="Enter your first lot" actions={ways}>
          A lot is what you bought together for one price: a tin of rough cars, a shelf, a single car. Its
          price is shared out over its cars by what they are worth. Enter the cars by hand, paste them from a
          spreadsheet, or import your own list.
        </EmptyState>
      </>
    );
  const seen = rows.filter(lot => lot.isSeen);
  const cars = rows.reduce((sum, lot) => sum + (lot.isSeen ? 0 : lot.carCount), 0);
  const open = rows.filter(
    lot =>
      lot.carCount > 0 &&
      (lot.gradedCount < lot.carCount ||
        lot.identifiedCount < lot.carCount ||
        lot.photographedCount < lot.carCount),
  ).length;
  const facts = [
    `${counted(rows.length - seen.length, 'lot')} of ${counted(cars, 'car')}`,
    ...(seen.length > 0 ? [`${counted(seen.length, 'lot')} seen, not bought`] : []),
    open === 0
      ? `all ${readerWords().dialect.catalogued}`
      : `${open} still to be ${readerWords().dialect.catalogued}`,
    `values in ${currency}`,
  ].join(' · ');
  return (
    <div className="fill">
      <PageHeader
        title="Lots"
        facts={facts}
        actions={
          <>
            <ExportMenu list="lots" rows={() => ({ ids: (grid.current?.rowIds() ?? []).map(Number) })} />
            {ways}
          </>
        }
      />
      <div className={classes.list}>
        <DataGrid
          label="Lots"
          handle={grid}
          rows={rows}
          columns={columns}
          getRowId={lot => String(lot.id)}
          rowHeight={64}
          startColumn="name"
          sortedBy={{ columnId: 'boughtOn', descending: true }}
          onOpen={id => navigate(`/${id}`)}
          autoFocus
        />
      </div>
    </div>
  );
};

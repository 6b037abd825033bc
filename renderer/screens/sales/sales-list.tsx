import { Button } from '@mantine/core';
import { Suspense, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { Link, useLocation, useSearch } from 'wouter';
import type { CollectionSummary, SaleRow, SalesFacts } from '../../../electron/api/views.ts';
import type { SaleFilter } from '../../../valuation/reading/list-address.ts';
import { type SaleState, saleStates } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { DataGrid } from '../../components/data-grid/data-grid.tsx';
import type { CellChange, GridHandle, GridSort, RowState } from '../../components/data-grid/types.ts';
import type { Choice } from '../../components/inputs/choices.ts';
import { lateCode, useLate } from '../../components/late-code.ts';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { ErrorState } from '../../components/layout/error-state.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { useOwnMeanings } from '../../components/own-words/own-meanings.ts';
import { ColumnsMenu } from '../../components/saved-views/columns-menu.tsx';
import { ExportMenu } from '../../components/saved-views/export-menu.tsx';
import { addLook } from '../../components/saved-views/list-look.ts';
import { useListLook } from '../../components/saved-views/use-list-look.ts';
import { LeftOut, useSavedViews, ViewsMenu } from '../../components/saved-views/views-menu.tsx';
import { FilterBar } from './filter-bar.tsx';
import { RecordFoot } from './record-foot.tsx';
import { saleColumns } from './sale-columns.tsx';
import { saleChanges } from './sale-edits.ts';
import { filterQuery } from './sale-filter.ts';
import classes from './sales.module.css';
import { useSaleList } from './use-sale-list.ts';

/** Charts are more code than all else that the list needs. */
const priceChart = lateCode(() => import('./price-chart.tsx'));

const tones: Record<SaleState, RowState | null> = {
  counted: null,
  doubtful: { tone: 'caution', label: 'Doubtful' },
  'set aside': { tone: 'caution', label: 'Set aside' },
  'left out': { tone: 'muted', label: 'Left out' },
};
const rowState = (row: SaleRow) => tones[row.state];
const newestFirst: GridSort = { columnId: 'soldOn', descending: true };
const rowId = (row: SaleRow) => String(row.id);

const factsText = ({ records, castings, states }: SalesFacts): string => {
  const apart = saleStates
    .filter(state => state !== 'counted' && states[state] > 0)
    .map(state => `${states[state].toLocaleString()} ${state}`);
  return [
    `${records.toLocaleString()} sales of ${castings.toLocaleString()} castings`,
    `${states.counted.toLocaleString()} count in full`,
    ...apart,
  ].join(' · ');
};

const useEdit = () => {
  const { mutateAsync } = useAction(
    (changes: ReturnType<typeof saleChanges>) => api.sales.updateMany({ changes }),
    {
      label: changes => {
        const records = new Set(changes.map(({ id }) => id)).size;
        return records === 1 ? 'Sale record changed' : `${records} sale records changed`;
      },
    },
  );
  return useCallback(
    async (changes: CellChange[]) => {
      const patches = saleChanges(changes);
      if (patches.length > 0) await mutateAsync(patches);
    },
    [mutateAsync],
  );
};

/** Every sale that the worths rest on, to read, correct and weigh. */
export const SalesList = ({
  facts,
  filter,
  sources,
  summary,
  added,
  onAdd,
}: {
  facts: SalesFacts;
  filter: SaleFilter;
  sources: readonly Choice[];
  summary: CollectionSummary;
  /** The record that was added last: the cursor goes to it. */
  added: number | null;
  onAdd: () => void;
}) => {
  const [, navigate] = useLocation();
  const asked = new URLSearchParams(useSearch()).get('record');
  const [opened, setOpened] = useState<number | null>(null);
  useEffect(() => setOpened(added), [added]);
  const edit = useEdit();
  const grid = useRef<GridHandle>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a list that is filtered otherwise begins at its top
  useEffect(() => {
    grid.current?.toTop();
  }, [filter]);

  const means = useOwnMeanings();
  const columns = useMemo(() => saleColumns(sources, means), [sources, means]);
  const look = useListLook('sales', columns, newestFirst);
  const PriceChart = useLate(priceChart);
  const views = useSavedViews('sales');
  const startAt = opened === null ? asked : String(opened);
  const { windowed, setRange, chosen, list } = useSaleList(filter, look.sortedBy, startAt);
  const { rows } = windowed;
  const change = (next: Partial<SaleFilter>) => {
    const text = addLook(new URLSearchParams(filterQuery({ ...filter, ...next })), look.look).toString();
    navigate(text ? `~/sales?${text}` : '~/sales', { replace: true });
  };
  const { name, unread } = facts;
  const row = windowed.atCursor;
  if (windowed.error) return <ErrorState error={windowed.error} retry={windowed.retry} />;
  if (windowed.isFirst) return <LoadingState label="Reading the sale records" />;
  return (
    <div className="fill">
      <PageHeader
        title="Sale records"
        facts={factsText(facts)}
        actions={
          <>
            {unread > 0 ? (
              <Button component={Link} href="~/not-understood">
                Say what texts mean
              </Button>
            ) : null}
            <Button component={Link} href="~/sales/sold">
              Cars you sold
            </Button>
            <Button component={Link} href="~/lots/import?as=sales">
              Import a spreadsheet
            </Button>
            <Button component={Link} href="~/sales/paste">
              Paste sales
            </Button>
            <ColumnsMenu state={look} />
            <ViewsMenu {...views} />
            <ExportMenu list="sales" />
            <Button variant="filled" onClick={onAdd}>
              Add a sale record
            </Button>
          </>
        }
      />
      <LeftOut chosen={views.chosen} state={look} />
      <FilterBar
        filter={filter}
        counts={facts.tallies}
        sources={facts.seenSources}
        castingName={name}
        onChange={change}
      />
      {filter.casting !== null || filter.variation !== null ? (
        <Suspense fallback={null}>
          <PriceChart list={list} currency={summary.reportingCurrency} onOpen={setOpened} />
        </Suspense>
      ) : null}
      <div className={classes.list}>
        <DataGrid
          label="Sale records"
          rows={rows}
          windowed={windowed}
          columns={look.shown}
          getRowId={rowId}
          rowState={rowState}
          rowHeight={32}
          sortedBy={look.sortedBy}
          onSort={look.onSort}
          onMoveColumn={look.onMoveColumn}
          startAt={startAt}
          autoFocus
          handle={grid}
          onEdit={edit}
          onRangeChange={setRange}
          footer={
            row && chosen ? <RecordFoot row={row} chosen={chosen} /> : <span className={classes.facts} />
          }
          empty={
            <EmptyState
              title="No sale records match"
              actions={
                <Button component={Link} href="~/sales">
                  Show all records
                </Button>
              }
            >
              {name ? `None of ${name} under this filter. ` : ''}Widen the filter, or add sales you have seen.
            </EmptyState>
          }
        />
      </div>
    </div>
  );
};

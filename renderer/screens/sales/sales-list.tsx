import { Button } from '@mantine/core';
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { Link, useLocation, useSearch } from 'wouter';
import type { CollectionSummary, SaleRow } from '../../../electron/api/views.ts';
import { type SaleState, saleStates } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { DataGrid } from '../../components/data-grid/data-grid.tsx';
import type { CellChange, GridHandle, GridSort, RowState } from '../../components/data-grid/types.ts';
import { EmptyState } from '../../components/layout/empty-state.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { useOwnMeanings } from '../../components/own-words/own-meanings.ts';
import { ColumnsMenu } from '../../components/saved-views/columns-menu.tsx';
import { addLook } from '../../components/saved-views/list-look.ts';
import { useListLook } from '../../components/saved-views/use-list-look.ts';
import { LeftOut, useSavedViews, ViewsMenu } from '../../components/saved-views/views-menu.tsx';
import { FilterBar } from './filter-bar.tsx';
import { PriceChart } from './price-chart.tsx';
import { RecordFoot } from './record-foot.tsx';
import { saleColumns } from './sale-columns.tsx';
import { saleChanges } from './sale-edits.ts';
import { doubtPhrases, filterQuery, filterSales, readFilter, type SaleFilter } from './sale-filter.ts';
import classes from './sales.module.css';

const tones: Record<SaleState, RowState | null> = {
  counted: null,
  doubtful: { tone: 'caution', label: 'Doubtful' },
  'set aside': { tone: 'caution', label: 'Set aside' },
  'left out': { tone: 'muted', label: 'Left out' },
};
const rowState = (row: SaleRow) => tones[row.state];
const newestFirst: GridSort = { columnId: 'soldOn', descending: true };
const rowId = (row: SaleRow) => String(row.id);

const factsOf = (rows: readonly SaleRow[]): string => {
  const castings = new Set(rows.map(row => row.castingId)).size;
  const count = (state: SaleState) => rows.filter(row => row.state === state).length;
  const apart = saleStates
    .filter(state => state !== 'counted')
    .map(state => [count(state), state] as const)
    .filter(([number]) => number > 0)
    .map(([number, state]) => `${number.toLocaleString()} ${state}`);
  return [
    `${rows.length.toLocaleString()} sales of ${castings} castings`,
    `${count('counted').toLocaleString()} count in full`,
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
  all,
  sources,
  summary,
  added,
  onAdd,
}: {
  all: readonly SaleRow[];
  /** Kinds of source, those of the assumptions first. */
  sources: readonly string[];
  summary: CollectionSummary;
  /** The record that was added last: the cursor goes to it. */
  added: number | null;
  onAdd: () => void;
}) => {
  const [, navigate] = useLocation();
  const query = useSearch();
  const filter = useMemo(() => readFilter(query), [query]);
  const asked = new URLSearchParams(query).get('record');
  const [opened, setOpened] = useState<number | null>(null);
  useEffect(() => setOpened(added), [added]);
  const [cursor, setCursor] = useState<string | null>(null);
  const [selected, setSelected] = useState<readonly string[]>([]);
  const edit = useEdit();
  const grid = useRef<GridHandle>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a list that is filtered otherwise begins at its top
  useEffect(() => {
    grid.current?.toTop();
  }, [filter]);

  const phrases = useMemo(() => doubtPhrases(all), [all]);
  const means = useOwnMeanings();
  const unread = useMemo(() => all.filter(entry => entry.unread.length > 0).length, [all]);
  const columns = useMemo(
    () =>
      saleColumns(
        sources.map(source => ({ value: source, label: source })),
        phrases,
        means,
      ),
    [sources, phrases, means],
  );
  const { rows, counts } = useMemo(() => filterSales(all, filter), [all, filter]);
  const facts = useMemo(() => factsOf(all), [all]);
  const look = useListLook('sales', columns, newestFirst);
  const views = useSavedViews('sales');
  const change = (next: Partial<SaleFilter>) => {
    const text = addLook(new URLSearchParams(filterQuery({ ...filter, ...next })), look.look).toString();
    navigate(text ? `~/sales?${text}` : '~/sales', { replace: true });
  };
  const named = all.find(row =>
    filter.variation === null ? row.castingId === filter.casting : row.variationId === filter.variation,
  );
  const name =
    filter.casting === null && filter.variation === null
      ? ''
      : filter.variation === null
        ? (named?.casting ?? '')
        : `${named?.casting ?? ''}, ${named?.variation ?? ''}`;
  const row = rows.find(entry => rowId(entry) === cursor) ?? null;
  const ids = new Set(selected);
  const chosen = rows.filter(entry => ids.has(rowId(entry)));
  return (
    <div className="fill">
      <PageHeader
        title="Sale records"
        facts={facts}
        actions={
          <>
            {unread > 0 ? (
              <Button component={Link} href="~/not-understood">
                Say what texts mean
              </Button>
            ) : null}
            <Button component={Link} href="~/lots/import?as=sales">
              Import a spreadsheet
            </Button>
            <Button component={Link} href="~/sales/paste">
              Paste sales
            </Button>
            <ColumnsMenu state={look} />
            <ViewsMenu {...views} />
            <Button variant="filled" onClick={onAdd}>
              Add a sale record
            </Button>
          </>
        }
      />
      <LeftOut chosen={views.chosen} state={look} />
      <FilterBar
        filter={filter}
        counts={counts}
        sources={sources.filter(source => all.some(entry => entry.source === source))}
        castingName={name}
        onChange={change}
      />
      {filter.casting !== null || filter.variation !== null ? (
        <PriceChart rows={rows} currency={summary.reportingCurrency} onOpen={setOpened} />
      ) : null}
      <div className={classes.list}>
        <DataGrid
          label="Sale records"
          rows={rows}
          columns={look.shown}
          getRowId={rowId}
          rowState={rowState}
          rowHeight={32}
          sortedBy={look.sortedBy}
          onSort={look.onSort}
          onMoveColumn={look.onMoveColumn}
          startAt={opened === null ? asked : String(opened)}
          autoFocus
          handle={grid}
          onEdit={edit}
          onCursorChange={setCursor}
          onSelectionChange={setSelected}
          footer={<RecordFoot row={row} chosen={chosen} phrase={row ? phrases.get(row.id) : undefined} />}
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

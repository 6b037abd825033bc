import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMemo, useRef, useState } from 'react';
import { Link } from 'wouter';
import type { CastingRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridColumn, GridHandle } from '../../../components/data-grid/types.ts';
import { TypeAhead } from '../../../components/inputs/type-ahead.tsx';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import { choicesOf } from '../forms/drafts.ts';
import classes from './names.module.css';

const title = 'Series and maker';

const columns: readonly GridColumn<CastingRow>[] = [
  {
    id: 'name',
    title: 'Casting',
    width: 168,
    grow: 2,
    pinned: true,
    value: row => row.name,
    render: row => <span className={classes.name}>{row.name}</span>,
  },
  { id: 'series', title: 'Series', width: 140, grow: 1, value: row => row.series },
  { id: 'maker', title: 'Maker', width: 140, grow: 1, value: row => row.maker },
  { id: 'year', title: 'From', width: 56, value: row => row.firstYear },
  { id: 'cars', title: 'Yours', width: 56, align: 'end', value: row => row.cars },
];

const rowId = (row: CastingRow) => String(row.id);

const Panel = ({
  chosen,
  castings,
  onDone,
}: {
  chosen: readonly CastingRow[];
  castings: readonly CastingRow[];
  onDone: () => void;
}) => {
  const [series, setSeries] = useState('');
  const [maker, setMaker] = useState('');
  const seriesChoices = useMemo(() => choicesOf(castings.map(row => row.series)), [castings]);
  const makerChoices = useMemo(() => choicesOf(castings.map(row => row.maker)), [castings]);
  const what = chosen.length === 1 ? (chosen[0]?.name ?? '') : `${chosen.length} castings`;
  const move = useAction(
    () =>
      api.names.moveCastings({ ids: chosen.map(row => row.id), series: series.trim(), maker: maker.trim() }),
    { label: `${what} put into ${series}`, failure: 'The castings stay where they are', onDone },
  );
  if (chosen.length === 0) return null;
  return (
    <aside className={classes.panel} aria-label="The castings that are selected">
      <h2 className={classes.panelTitle}>{what}</h2>
      <p className={classes.facts}>Select several with Shift and the arrows, or all with Ctrl A.</p>
      <form
        className={classes.newCasting}
        onSubmit={event => {
          event.preventDefault();
          if (series.trim() && maker.trim()) move.mutate();
        }}
      >
        <TypeAhead
          label="All of series"
          value={series}
          choices={seriesChoices}
          freeText
          onPick={({ label }) => {
            setSeries(label);
            const known = castings.find(row => row.series === label);
            if (known && maker === '') setMaker(known.maker);
          }}
        />
        <TypeAhead
          label="by the maker"
          value={maker}
          choices={makerChoices}
          freeText
          onPick={({ label }) => setMaker(label)}
        />
        <Button
          type="submit"
          variant="filled"
          disabled={!series.trim() || !maker.trim()}
          loading={move.isPending}
        >
          Put {what} there
        </Button>
      </form>
    </aside>
  );
};

const Castings = ({ castings }: { castings: readonly CastingRow[] }) => {
  const [selected, setSelected] = useState<readonly string[]>([]);
  const grid = useRef<GridHandle>(null);
  const chosen = castings.filter(row => selected.includes(rowId(row)));
  useKeys(title, [{ keys: 'shift+ArrowDown', does: 'Select several castings' }]);
  return (
    <div className={classes.screen}>
      <PageHeader
        title={title}
        back={{ label: 'Reference', to: '/reference' }}
        facts={castings.length === 1 ? '1 casting' : `${castings.length.toLocaleString()} castings`}
      />
      <div className={classes.split}>
        <div className={classes.list}>
          <DataGrid
            label="Castings by series"
            rows={castings}
            columns={columns}
            getRowId={rowId}
            rowHeight={32}
            autoFocus
            handle={grid}
            sortedBy={{ columnId: 'series' }}
            onSelectionChange={setSelected}
          />
        </div>
        <Panel chosen={chosen} castings={castings} onDone={() => grid.current?.focus()} />
      </div>
    </div>
  );
};

/** Castings of which many are put into one series of one maker by one choice. */
export const SeriesScreen = () => {
  const castings = useQuery({ queryKey: ['castings'], queryFn: () => api.reference.castings() });
  if (castings.error) return <ErrorState error={castings.error} retry={() => void castings.refetch()} />;
  if (!castings.data) return <LoadingState />;
  if (castings.data.length > 0) return <Castings castings={castings.data} />;
  return (
    <>
      <PageHeader title={title} back={{ label: 'Reference', to: '/reference' }} facts="No castings yet" />
      <EmptyState
        title="There is nothing to sort yet"
        actions={
          <Button component={Link} href="~/reference" variant="filled">
            To the reference
          </Button>
        }
      >
        Castings that share a series lend each other their sale records. Once there are some, select those of
        one series here and say its name once.
      </EmptyState>
    </>
  );
};

import { Button, Select, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { CastingRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import type { GridColumn } from '../../../components/data-grid/types.ts';
import { counted } from '../../../components/format.ts';
import { EmptyState } from '../../../components/layout/empty-state.tsx';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { PageHeader } from '../../../components/layout/page-header.tsx';
import names from '../names/names.module.css';
import classes from './sets.module.css';

const back = { label: 'Reference', to: '/reference' };

const columns: readonly GridColumn<CastingRow>[] = [
  { id: 'name', title: 'Casting', width: 160, grow: 2, pinned: true, value: row => row.name },
  { id: 'series', title: 'Series', width: 130, grow: 1, value: row => row.series },
  { id: 'year', title: 'From', width: 56, value: row => row.firstYear },
  { id: 'cars', title: 'Yours', width: 56, align: 'end', value: row => row.cars },
];
const rowId = (row: CastingRow) => String(row.id);

const textsOf = (values: readonly (string | number | null)[]): string[] =>
  [...new Set(values.flatMap(value => (value === null ? [] : String(value))))].sort((a, b) =>
    a.localeCompare(b, undefined, { numeric: true }),
  );

const Sets = () => {
  const { data: sets = [] } = useQuery({
    queryKey: ['casting-sets'],
    queryFn: () => api.castingSets.list(),
  });
  if (sets.length === 0) return <p className={names.facts}>No sets yet.</p>;
  return (
    <ul className={classes.sets} aria-label="Your sets">
      {sets.map(({ id, name, castingIds }) => (
        <li key={id}>
          <Link href={`/sets/${id}`}>{name}</Link>{' '}
          <span className="soft">{counted(castingIds.length, 'casting')}</span>
        </li>
      ))}
    </ul>
  );
};

const Chooser = ({ castings }: { castings: readonly CastingRow[] }) => {
  const [, navigate] = useLocation();
  const [series, setSeries] = useState<string | null>(null);
  const [year, setYear] = useState<string | null>(null);
  const [name, setName] = useState('');
  const [selected, setSelected] = useState<readonly string[]>([]);
  const rows = useMemo(
    () =>
      castings.filter(
        row =>
          (series === null || row.series === series) && (year === null || String(row.firstYear) === year),
      ),
    [castings, series, year],
  );
  const range = rows.filter(row => selected.includes(rowId(row)));
  // A range of several counts; without one, all that are listed do.
  const chosen = range.length > 1 ? range : rows;
  const make = useAction(
    () => api.castingSets.create({ name: name.trim(), castingIds: chosen.map(row => row.id) }),
    {
      label: () => `Set “${name.trim()}” made`,
      failure: 'The set could not be made',
      thenGo: ({ id }) => navigate(`/sets/${id}`),
    },
  );
  return (
    <div className={names.split}>
      <div className={names.list}>
        <search className={classes.filter}>
          <Select
            label="Series"
            placeholder="Any series"
            value={series}
            data={textsOf(castings.map(row => row.series))}
            clearable
            clearButtonProps={{ 'aria-label': 'Any series' }}
            onChange={setSeries}
          />
          <Select
            label="First year"
            placeholder="Any year"
            value={year}
            data={textsOf(castings.map(row => row.firstYear))}
            clearable
            clearButtonProps={{ 'aria-label': 'Any year' }}
            onChange={setYear}
          />
        </search>
        <DataGrid
          label="Castings to choose from"
          rows={rows}
          columns={columns}
          getRowId={rowId}
          rowHeight={32}
          autoFocus
          onSelectionChange={setSelected}
          empty={<p className={classes.none}>No castings of that series and year.</p>}
        />
      </div>
      <aside className={names.panel} aria-label="Sets">
        <h2 className={names.panelTitle}>Your sets</h2>
        <Sets />
        <h2 className={names.panelTitle}>A new set</h2>
        <p className={names.facts}>
          Of all castings that are listed, or of a range that you select with Shift and the arrows. Castings
          can be added and taken out later.
        </p>
        <form
          className={names.newCasting}
          onSubmit={event => {
            event.preventDefault();
            if (name.trim() && chosen.length > 0) make.mutate();
          }}
        >
          <TextInput
            label="Name of the set"
            value={name}
            maxLength={200}
            onChange={event => setName(event.currentTarget.value)}
          />
          <Button
            type="submit"
            variant="filled"
            disabled={!name.trim() || chosen.length === 0}
            loading={make.isPending}
          >
            Make a set of {counted(chosen.length, 'casting')}
          </Button>
        </form>
      </aside>
    </div>
  );
};

/** Sets of castings, and how one is made from the reference. */
export const SetsScreen = () => {
  const castings = useQuery({ queryKey: ['castings'], queryFn: () => api.reference.castings() });
  if (castings.error) return <ErrorState error={castings.error} retry={() => void castings.refetch()} />;
  if (!castings.data) return <LoadingState />;
  return (
    <div className={names.screen}>
      <PageHeader
        title="Sets"
        back={back}
        facts="Castings that you collect together, such as those of one year"
      />
      {castings.data.length > 0 ? (
        <Chooser castings={castings.data} />
      ) : (
        <EmptyState
          title="A set is made of castings"
          actions={
            <Button component={Link} href="~/reference" variant="filled">
              To the reference
            </Button>
          }
        >
          The reference has none yet. Once it has, choose here those that belong together, and see which are
          missing and what they may cost.
        </EmptyState>
      )}
    </div>
  );
};

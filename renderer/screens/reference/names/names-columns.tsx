import { useMemo } from 'react';
import type { WaitingName } from '../../../../electron/api/views.ts';
import type { GridColumn } from '../../../components/data-grid/types.ts';
import classes from './names.module.css';

const counted = (id: 'cars' | 'sales', title: string): GridColumn<WaitingName> => ({
  id,
  title,
  width: 56,
  align: 'end',
  value: row => row[id],
  render: row => (row[id] === 0 ? <span className="soft">–</span> : row[id]),
});

const spellings = ({ spellings: all }: WaitingName) =>
  all
    .slice(1)
    .map(({ text }) => text)
    .join(', ');

const namesColumns: readonly GridColumn<WaitingName>[] = [
  {
    id: 'name',
    title: 'Name',
    width: 168,
    grow: 2,
    pinned: true,
    value: row => row.name,
    render: row => (
      <span className={classes.name} title={row.name}>
        {row.name}
      </span>
    ),
  },
  {
    id: 'spellings',
    title: 'Also written',
    width: 132,
    grow: 2,
    value: spellings,
    render: row => (
      <span className={classes.cell} title={spellings(row)}>
        {spellings(row)}
      </span>
    ),
  },
  counted('cars', 'Cars'),
  counted('sales', 'Sales'),
  { id: 'years', title: 'Year', width: 64, value: row => row.years.join(', ') },
  {
    id: 'near',
    title: 'Spelled like',
    width: 120,
    grow: 1,
    value: row => row.near?.name ?? '',
    render: row => (
      <span className={classes.cell} title={row.near ? `${row.near.name}, ${row.near.series}` : undefined}>
        {row.near?.name}
      </span>
    ),
  },
  {
    id: 'valued',
    title: 'Gives a value to',
    width: 116,
    value: row => row.valued,
    render: row => (row.valued === 0 ? '' : row.valued === 1 ? '1 car' : `${row.valued} cars`),
  },
];

const always = new Set(['name', 'cars', 'sales']);

/** The columns of the names that wait: those in which any of them says something. */
export const useNamesColumns = (names: readonly WaitingName[]): readonly GridColumn<WaitingName>[] => {
  const told = namesColumns
    .filter(({ id, value }) => always.has(id) || names.some(name => value(name)))
    .map(({ id }) => id)
    .join();
  return useMemo(() => namesColumns.filter(({ id }) => told.split(',').includes(id)), [told]);
};

import { Button } from '@mantine/core';
import { useMemo, useState } from 'react';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import { worthScale } from '../../../components/worth-strip/scale.ts';
import { stripWorths } from '../../../components/worth-strip/strip-worths.ts';
import classes from '../decide.module.css';
import type { Season } from '../season/season.ts';
import { decideColumns, type ListRow } from './columns.tsx';
import { useListRows } from './use-list-rows.ts';

const idOf = (row: ListRow) => String(row.weighed.car.id);

/** The list of the weighed cars: the words and figures of the chart, and the way into the season. */
export const DecideList = ({
  cars,
  currency,
  standings,
  startAt,
  onCursor,
  onSelect,
  onOpen,
  onToggle,
  onToggleOne,
  onAll,
}: {
  cars: readonly DecisionSummary[];
  currency: Currency;
  standings: Season['standings'];
  startAt: string | null;
  onCursor: (rowId: string | null) => void;
  onSelect: (carIds: number[]) => void;
  onOpen: (carId: number) => void;
  onToggle: (carIds: readonly number[]) => void;
  /** Stable, so that the columns are. */
  onToggleOne: (carId: number) => void;
  onAll: () => void;
}) => {
  const rows = useListRows(cars, standings);
  const [selected, setSelected] = useState<number[]>([]);
  const scale = useMemo(
    () =>
      worthScale(
        cars.map(({ car }) => stripWorths(car.worths)),
        currency,
      ),
    [cars, currency],
  );
  const columns = useMemo(
    () => decideColumns({ currency, scale, onToggle: onToggleOne }),
    [currency, scale, onToggleOne],
  );
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: hears a key that the grid within leaves to the screen
    <div
      className={classes.list}
      onKeyDown={event => {
        if (event.key !== ' ' || !(event.target instanceof HTMLTableElement)) return;
        event.preventDefault();
        if (selected.length > 0) onToggle(selected);
      }}
    >
      <DataGrid
        label="Cars to decide"
        rows={rows}
        columns={columns}
        getRowId={idOf}
        sortedBy={{ columnId: 'gain', descending: true }}
        rowHeight={40}
        startAt={startAt}
        autoFocus
        onCursorChange={onCursor}
        onSelectionChange={ids => {
          const numbers = ids.map(Number);
          setSelected(numbers);
          onSelect(numbers);
        }}
        onOpen={id => onOpen(Number(id))}
        empty={
          <div className={classes.nothing}>
            <h2>No cars match</h2>
            <p>None of them matches the filter above.</p>
            <Button onClick={onAll}>Weigh all cars</Button>
          </div>
        }
      />
    </div>
  );
};

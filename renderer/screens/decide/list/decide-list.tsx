import { Button } from '@mantine/core';
import { useMemo } from 'react';
import type { DecideFacts } from '../../../../electron/api/views.ts';
import { DataGrid } from '../../../components/data-grid/data-grid.tsx';
import { scaleBetween } from '../../../components/worth-strip/scale.ts';
import classes from '../decide.module.css';
import type { Season } from '../season/season.ts';
import { decideColumns, type ListRow } from './columns.tsx';
import type { DecideListState } from './use-decide-list.ts';
import { useListRows } from './use-list-rows.ts';

const idOf = (row: ListRow) => String(row.weighed.car.id);

/** The list of the weighed cars: the words and figures of the chart, and the way into the season. */
export const DecideList = ({
  list: { windowed, sort, setSort, setRange },
  facts: { currency, values },
  standings,
  startAt,
  onCursor,
  onOpen,
  onToggle,
  onToggleOne,
  onAll,
}: {
  list: DecideListState;
  facts: Pick<DecideFacts, 'currency' | 'values'>;
  standings: Season['standings'];
  startAt: string | null;
  onCursor: (rowId: string | null) => void;
  onOpen: (carId: number) => void;
  /** Puts the selected cars into the season, or takes them out. */
  onToggle: () => void;
  /** Stable, so that the columns are. */
  onToggleOne: (carId: number) => void;
  onAll: () => void;
}) => {
  const rows = useListRows(windowed, standings);
  const columns = useMemo(
    () => decideColumns({ currency, scale: scaleBetween(values, currency), onToggle: onToggleOne }),
    [currency, values, onToggleOne],
  );
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: hears a key that the grid within leaves to the screen
    <div
      className={classes.list}
      onKeyDown={event => {
        if (event.key !== ' ' || !(event.target instanceof HTMLTableElement)) return;
        event.preventDefault();
        onToggle();
      }}
    >
      <DataGrid
        label="Cars to decide"
        rows={rows.rows}
        windowed={rows}
        columns={columns}
        getRowId={idOf}
        sortedBy={sort}
        onSort={setSort}
        rowHeight={40}
        startAt={startAt}
        autoFocus
        onCursorChange={onCursor}
        onRangeChange={setRange}
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

import classes from './data-grid.module.css';
import type { DataGridProps, GridColumn } from './types.ts';
import { useColumnDrag } from './use-column-drag.ts';
import type { GridTable } from './use-grid-table.ts';

const sortWord = (descending: boolean | null) =>
  descending === null ? 'none' : descending ? 'descending' : 'ascending';

/** The headings: a click or Enter sorts, the edge drags to a new width, a double click on it puts it back. */
export const GridHeader = <Row extends object>({
  gridId,
  table,
  columns,
  pins,
  cursorColumn,
  onFocusColumn,
  onMoveColumn,
}: {
  gridId: string;
  table: GridTable<Row>;
  columns: readonly GridColumn<Row>[];
  pins: readonly (number | null)[];
  /** The heading under the cursor, or null. */
  cursorColumn: number | null;
  onFocusColumn: (column: number) => void;
  onMoveColumn: DataGridProps<Row>['onMoveColumn'];
}) => {
  const drag = useColumnDrag(columns, onMoveColumn);
  return (
    <thead className={classes.head}>
      <tr className={classes.headRow} aria-rowindex={1}>
        {columns.map((column, index) => {
          const header = table.headers[index];
          const sorted = table.sorting?.id === column.id ? table.sorting.desc : null;
          const sortable = column.sortable ?? true;
          const pin = pins[index] ?? null;
          return (
            <th
              key={column.id}
              id={`${gridId}-r-1-c${index}`}
              className={classes.heading}
              scope="col"
              aria-colindex={index + 1}
              aria-sort={sortable ? sortWord(sorted) : undefined}
              data-align={column.align}
              data-cursor={cursorColumn === index || undefined}
              data-pinned={pin === null ? undefined : true}
              data-sortable={sortable || undefined}
              style={pin === null ? undefined : { left: pin }}
              data-dropping={drag.over === index || undefined}
              onMouseDown={event => {
                event.preventDefault();
                onFocusColumn(index);
                if (event.button === 0) drag.begin(index);
              }}
              onMouseEnter={() => drag.enter(index)}
              onMouseUp={() => drag.drop(index)}
              onClick={() => {
                if (sortable) table.sort(column.id);
              }}
            >
              <span className={classes.title}>
                {column.title}
                {sorted === null ? null : (
                  <span className={classes.sorted} aria-hidden="true">
                    {sorted ? '↓' : '↑'}
                  </span>
                )}
              </span>
              {column.heading ? <span className={classes.under}>{column.heading}</span> : null}
              {header ? (
                <span
                  className={classes.handle}
                  aria-hidden="true"
                  onClick={event => event.stopPropagation()}
                  onMouseDown={event => {
                    event.stopPropagation();
                    header.getResizeHandler()(event);
                  }}
                  onTouchStart={header.getResizeHandler()}
                  onDoubleClick={() => table.resetWidth(column.id)}
                />
              ) : null}
            </th>
          );
        })}
      </tr>
    </thead>
  );
};

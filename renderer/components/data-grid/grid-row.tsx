import { memo } from 'react';
import { useFileDrop } from '../files/use-file-drop.ts';
import { CellEditor } from './cell-editor.tsx';
import classes from './data-grid.module.css';
import { cellText } from './parse-cell.ts';
import type { GridColumn, RowState } from './types.ts';
import type { Grid } from './use-grid.ts';
import type { Editing } from './use-grid-editing.ts';
import { blankKey, cellKey, type Underway } from './use-grid-writes.ts';

export interface GridRowProps<Row extends object> {
  gridId: string;
  index: number;
  top: number;
  height: number;
  row: Row | null;
  rowKey: string | null;
  /** It is there, and not here yet. */
  isComing: boolean;
  columns: readonly GridColumn<Row>[];
  pins: readonly (number | null)[];
  cursorColumn: number | null;
  selectedFrom: number;
  selectedTo: number;
  editing: Editing | null;
  underway: Underway | null;
  /** The row's state in parts, so that an equal one does not draw the row again. */
  tone: RowState['tone'] | null;
  toneLabel: string | null;
  takesFiles: boolean;
  /** A box that always holds the grid as it is now, so that rows need not be drawn again for its sake. */
  grid: { current: Grid<Row> };
  onDropFiles: { current: ((rowId: string, files: File[]) => void) | undefined };
}

const content = <Row,>(column: GridColumn<Row>, row: Row | null) => {
  if (row === null) return null;
  return column.render ? column.render(row) : cellText(column, row);
};

const noDrop = { over: false, handlers: {} };

const GridRowPlain = <Row extends object>(props: GridRowProps<Row>) => {
  const {
    gridId,
    index,
    row,
    rowKey,
    isComing,
    columns,
    pins,
    cursorColumn,
    selectedFrom,
    selectedTo,
    editing,
    underway,
    tone,
    toneLabel,
    grid,
  } = props;
  const drop = useFileDrop(files => {
    if (rowKey !== null) props.onDropFiles.current?.(rowKey, files);
  });
  const { over, handlers } = props.takesFiles && rowKey !== null ? drop : noDrop;
  return (
    <tr
      className={classes.row}
      style={{ transform: `translateY(${props.top}px)`, height: props.height }}
      aria-rowindex={index + 2}
      aria-busy={isComing || undefined}
      data-blank={(row === null && !isComing) || undefined}
      data-tone={tone ?? undefined}
      data-over={over || undefined}
      {...handlers}
    >
      {columns.map((column, place) => {
        const pin = pins[place] ?? null;
        const selected = place >= selectedFrom && place <= selectedTo;
        const edited = editing?.column === place;
        const waiting = underway?.[cellKey(rowKey ?? blankKey(index), column.id)];
        return (
          // biome-ignore lint/a11y/useFocusableInteractive: the grid has the focus and points at its active cell
          <td
            key={column.id}
            id={`${gridId}-r${index}-c${place}`}
            className={classes.cell}
            // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: laid out as a grid, a td loses its role
            role="gridcell"
            aria-colindex={place + 1}
            aria-selected={selected}
            data-align={column.align}
            data-pinned={pin === null ? undefined : true}
            data-cursor={cursorColumn === place || undefined}
            data-editing={edited || undefined}
            data-waiting={waiting !== undefined || undefined}
            style={pin === null ? undefined : { left: pin }}
            title={place === 0 ? (toneLabel ?? undefined) : undefined}
            onMouseDown={event => {
              if (event.button !== 0 || edited || event.target instanceof HTMLAnchorElement) return;
              const spot = { row: index, column: place };
              const { goTo, selection, focusGrid } = grid.current;
              if (!(event.target instanceof HTMLButtonElement)) event.preventDefault();
              focusGrid();
              goTo({ anchor: event.shiftKey ? selection.anchor : spot, focus: spot });
            }}
            onMouseEnter={event => {
              if (event.buttons !== 1 || grid.current.editing) return;
              const { goTo, selection } = grid.current;
              goTo({ anchor: selection.anchor, focus: { row: index, column: place } });
            }}
            onDoubleClick={() => grid.current.beginEdit(index, place, null)}
          >
            {place === 0 && toneLabel ? <span className="heard">{toneLabel}. </span> : null}
            {edited && editing ? (
              <CellEditor
                column={column}
                row={row}
                text={editing.text}
                marked={editing.marked}
                onCommit={(...settled) => grid.current.commitEdit(...settled)}
                onCancel={() => grid.current.cancelEdit()}
              />
            ) : (
              (waiting ?? content(column, row))
            )}
            {row === null && !isComing && place === 0 && !edited && waiting === undefined ? (
              <span className={classes.invitation}>new</span>
            ) : null}
          </td>
        );
      })}
    </tr>
  );
};

/** One row, drawn again only when something of its own changes. */
export const GridRow = memo(GridRowPlain) as typeof GridRowPlain;

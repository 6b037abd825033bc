import type { KeyboardEvent } from 'react';
import { at, everything, move } from './cursor.ts';
import { type GridCommand, gridCommand } from './grid-keys.ts';
import { planClear, planFillDown } from './plan-changes.ts';
import type { DataGridProps } from './types.ts';
import type { GridCursor } from './use-grid-cursor.ts';
import type { GridEditing } from './use-grid-editing.ts';
import type { GridTable } from './use-grid-table.ts';
import type { GridWrites } from './use-grid-writes.ts';
import type { KeysAhead } from './use-keys-ahead.ts';
import type { WithRange } from './use-with-range.ts';

/** What commands work on. */
interface Worked<Row extends object> {
  rows: readonly Row[];
  cursor: GridCursor;
  editing: GridEditing;
  table: GridTable<Row>;
  writes: GridWrites;
  props: DataGridProps<Row>;
  withRange: WithRange<Row>;
}

/** Whether a grid has the command where its cursor stands; else the key is left to the page. */
const isHeard = <Row extends object>(command: GridCommand, { cursor, editing, props }: Worked<Row>) => {
  const { focus } = cursor.selection;
  switch (command.do) {
    case 'delete rows':
      return props.onDelete !== undefined;
    case 'new row':
      return props.onAppend !== undefined;
    case 'edit':
      return command.text === null || editing.canEdit(focus.row, focus.column);
    case 'resize':
      return focus.row < 0;
    case 'move column':
      return focus.row < 0 && props.onMoveColumn !== undefined;
    default:
      return true;
  }
};

const isFree = (columns: readonly { pinned?: boolean }[], place: number): boolean =>
  columns[place] !== undefined && !columns[place].pinned;

/** Does what a key means, where the grid has it. */
export const runGridCommand = <Row extends object>(command: GridCommand, worked: Worked<Row>) => {
  if (!isHeard(command, worked)) return;
  const { rows, cursor, editing, table, writes, props, withRange } = worked;
  const { columns, onEdit } = props;
  const { selection, box, extent } = cursor;
  const { focus } = selection;
  const column = columns[focus.column];
  switch (command.do) {
    case 'move':
      return cursor.goTo(move(selection, command.step, extent, command.extend));
    case 'edit':
      if (focus.row >= 0) editing.beginEdit(focus.row, focus.column, command.text);
      else if (column && (column.sortable ?? true)) table.sort(column.id);
      return;
    case 'open':
      return editing.open(focus.row);
    case 'new row':
      return cursor.goTo(at(extent.rows - 1, cursor.startColumn));
    case 'select all':
      return cursor.goTo(everything({ ...extent, rows: rows.length }));
    case 'collapse':
      writes.setMessage(null);
      return cursor.goTo({ anchor: focus, focus });
    case 'fill down':
      if (box && onEdit)
        withRange.change({ ...box, top: box.top - 1 }, content => planFillDown(content, box));
      return;
    case 'clear':
      if (box && onEdit) withRange.change(box, content => planClear(content, box));
      return;
    case 'delete rows':
      if (box) withRange.withIds(box, ids => props.onDelete?.(ids));
      return;
    case 'resize':
      if (column) table.resize(column.id, command.by);
      return;
    case 'move column': {
      const to = focus.column + command.by;
      if (!column || !isFree(columns, focus.column) || !isFree(columns, to)) return;
      props.onMoveColumn?.(column.id, to);
      cursor.goTo({ anchor: { row: -1, column: to }, focus: { row: -1, column: to } });
    }
  }
};

/**
 * True where the key means something to a row that is not here yet. What is typed means nothing to a column that
 * is never edited: it is a key of the page.
 */
const isWaiting = <Row extends object>(command: GridCommand, { rows, cursor, props }: Worked<Row>) => {
  const { row, column } = cursor.selection.focus;
  const takesText = props.onEdit !== undefined && props.columns[column]?.editor !== undefined;
  return (
    (command.do === 'open' || (command.do === 'edit' && (command.text === null || takesText))) &&
    row >= 0 &&
    row < rows.length &&
    rows[row] === undefined
  );
};

/** Runs what a key means to a grid, and keeps the key from the page where it means anything. */
export const runGridKey = <Row extends object>(
  event: KeyboardEvent,
  worked: Worked<Row>,
  ahead: KeysAhead,
): void => {
  if (worked.editing.editing || event.nativeEvent.isComposing) return;
  // Where the cursor was sent elsewhere and is not there yet, a key is meant for that row.
  const isHeld = worked.cursor.isSent && ahead.holdAny(event.nativeEvent);
  if (isHeld || ahead.isBehind(event.nativeEvent)) {
    event.stopPropagation();
    return;
  }
  const command = gridCommand(event);
  if (!command) return;
  if (command.do === 'tab') {
    if (worked.cursor.tabOn(command.back)) event.preventDefault();
    return;
  }
  const waits = isWaiting(command, worked);
  if (!waits && !isHeard(command, worked)) return;
  event.preventDefault();
  event.stopPropagation();
  if (waits) ahead.hold(event.nativeEvent);
  else runGridCommand(command, worked);
};

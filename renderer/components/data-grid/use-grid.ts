import { type KeyboardEvent, useId } from 'react';
import { runGridKey } from './run-grid-command.ts';
import type { DataGridProps } from './types.ts';
import { useGridCursor } from './use-grid-cursor.ts';
import { useGridEditing } from './use-grid-editing.ts';
import { useGridFocus } from './use-grid-focus.ts';
import { useGridTable } from './use-grid-table.ts';
import { useGridWrites } from './use-grid-writes.ts';
import { useKeysAhead } from './use-keys-ahead.ts';
import { useToldSelection } from './use-told-selection.ts';
import { useWithRange } from './use-with-range.ts';

/**
 * All that a grid knows between two draws: order, widths, cursor, what is being edited and what is under way.
 */
export const useGrid = <Row extends object>(props: DataGridProps<Row>) => {
  const { onEdit, onAppend } = props;
  const id = useId();
  const table = useGridTable(props);
  const { rows } = table;
  const writes = useGridWrites(rows, props);
  const cursor = useGridCursor(rows, writes.blanks, props);
  const { selection, box, extent, pageRows, goTo } = cursor;
  const { gridRef, focusGrid } = useGridFocus(rows, extent.rows > 0 || props.empty === undefined, props);
  const cells = useGridEditing(rows, { cursor, writes, focusGrid }, props);
  useToldSelection(rows, { box, row: selection.focus.row }, props);
  const withRange = useWithRange(rows, writes, props);
  const worked = { rows, cursor, editing: cells, table, writes, props, withRange };
  const ahead = useKeysAhead(!cursor.isSent && rows[selection.focus.row] !== undefined);
  return {
    id,
    gridRef,
    focusGrid,
    table,
    rows,
    writes,
    selection,
    box,
    extent,
    pageRows,
    goTo,
    ...cells,
    withRange,
    writable: onEdit !== undefined || onAppend !== undefined,
    onKeyDown: (event: KeyboardEvent) => runGridKey(event, worked, ahead),
  };
};

export type Grid<Row extends object> = ReturnType<typeof useGrid<Row>>;

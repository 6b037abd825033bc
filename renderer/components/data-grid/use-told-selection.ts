import { useLayoutEffect, useRef } from 'react';
import type { Box } from './cursor.ts';
import type { DataGridProps } from './types.ts';

/** Tells a screen what is selected and where the cursor stands, whenever that is another. */
export const useToldSelection = <Row extends object>(
  rows: readonly Row[],
  { box, row }: { box: Box | null; row: number },
  { getRowId, onSelectionChange, onCursorChange }: DataGridProps<Row>,
) => {
  const selectedIds = box
    ? rows
        .slice(box.top, box.bottom + 1)
        .map(getRowId)
        .join('\n')
    : '';
  const told = useRef({ onSelectionChange, onCursorChange });
  told.current = { onSelectionChange, onCursorChange };
  // Before the next key can come: what it does to the selection must do it to this one.
  useLayoutEffect(() => {
    told.current.onSelectionChange?.(selectedIds === '' ? [] : selectedIds.split('\n'));
  }, [selectedIds]);
  const cursorRow = rows[row];
  const cursorId = cursorRow === undefined ? null : getRowId(cursorRow);
  useLayoutEffect(() => {
    told.current.onCursorChange?.(cursorId);
  }, [cursorId]);
};

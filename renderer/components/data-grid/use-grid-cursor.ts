import { useLayoutEffect, useRef, useState } from 'react';
import {
  afterEdit,
  at,
  boxOf,
  clampSelection,
  type EditKey,
  type Extent,
  type Selection,
  type Spot,
} from './cursor.ts';
import type { DataGridProps } from './types.ts';

/** Where the cursor stands and what is selected, and how both go on when a cell is settled. */
export const useGridCursor = <Row extends object>(
  rows: readonly Row[],
  blanks: number,
  { columns, getRowId, startColumn: begin, startAt = null, windowed }: DataGridProps<Row>,
) => {
  const startColumn = Math.max(
    0,
    columns.findIndex(column => column.id === begin),
  );
  const [wanted, setSelection] = useState<Selection>(at(0, startColumn));
  const pageRows = useRef(10);
  // Where a run of Tabs began, and whether cells are being entered: then Tab goes on within the grid.
  const tabStart = useRef<number | null>(null);
  const entering = useRef(false);
  const extent: Extent = { rows: rows.length + blanks, columns: columns.length, page: pageRows.current };
  const selection = clampSelection(wanted, extent);

  const startRow =
    startAt === null ? -1 : windowed ? windowed.startRow : rows.findIndex(row => getRowId(row) === startAt);
  const started = useRef<string | null>(null);
  // Sent to a row of which it is not known yet where it stands, or that it has not gone to yet.
  const isSent =
    startAt !== null && startAt !== started.current && (startRow >= 0 || windowed?.isPlacing === true);
  useLayoutEffect(() => {
    if (startAt === started.current || (startAt !== null && startRow < 0)) return;
    started.current = startAt;
    if (startRow >= 0) setSelection(at(startRow, 0));
  }, [startAt, startRow]);

  const goTo = (next: Selection) => {
    setSelection(next);
    tabStart.current = null;
    entering.current = false;
  };
  /** To the cell after one that was settled by a key. */
  const goOn = (from: Spot, key: EditKey, within: Extent) => {
    if (key === 'Tab') tabStart.current ??= from.column;
    const next = afterEdit(from, key, within, tabStart.current);
    setSelection({ anchor: next, focus: next });
    entering.current = true;
    if (key === 'Enter' || key === 'Shift+Enter') tabStart.current = null;
  };
  /** To the next cell by Tab; false where it leaves the grid. */
  const tabOn = (back: boolean): boolean => {
    if (!entering.current) return false;
    const { focus } = selection;
    tabStart.current ??= focus.column;
    const next = afterEdit(focus, back ? 'Shift+Tab' : 'Tab', extent, null);
    if (next.row === focus.row && next.column === focus.column) return false;
    setSelection({ anchor: next, focus: next });
    return true;
  };
  return {
    startColumn,
    extent,
    selection,
    isSent,
    box: boxOf(selection),
    pageRows,
    goTo,
    goOn,
    tabOn,
    /** Stands on a cell that is about to be edited, in the midst of entering. */
    standOn: (row: number, column: number) => setSelection(at(row, column)),
  };
};

export type GridCursor = ReturnType<typeof useGridCursor>;

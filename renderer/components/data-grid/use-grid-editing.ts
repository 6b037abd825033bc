import { useRef, useState } from 'react';
import type { EditKey } from './cursor.ts';
import { type CellOutcome, cellText, isEditable } from './parse-cell.ts';
import type { DataGridProps } from './types.ts';
import type { GridCursor } from './use-grid-cursor.ts';
import type { GridWrites } from './use-grid-writes.ts';

/** The cell that is being edited. */
export interface Editing {
  row: number;
  column: number;
  text: string;
  /** True where the text stood in the cell before: it is marked, so that typing replaces it. */
  marked: boolean;
}

/** The cell that is being edited: how it is begun, settled and put back. */
export const useGridEditing = <Row extends object>(
  rows: readonly Row[],
  { cursor, writes, focusGrid }: { cursor: GridCursor; writes: GridWrites; focusGrid: () => void },
  { columns, getRowId, onEdit, onAppend, onOpen }: DataGridProps<Row>,
) => {
  const [editing, setShownEditing] = useState<Editing | null>(null);
  // An editor that is left by a key loses the focus a moment later: that must not settle it twice.
  const edited = useRef<Editing | null>(null);
  const setEditing = (next: Editing | null) => {
    edited.current = next;
    setShownEditing(next);
  };
  const canEdit = (row: number, column: number): boolean => {
    const definition = columns[column];
    const target = rows[row] ?? null;
    if (!definition || row < 0 || (target ? onEdit === undefined : onAppend === undefined)) return false;
    return isEditable(definition, target);
  };
  const textAt = (row: number, column: number): string => {
    const [definition, target] = [columns[column], rows[row]];
    return definition && target ? cellText(definition, target) : '';
  };
  const open = (row: number) => {
    const target = rows[row];
    if (target) onOpen?.(getRowId(target));
  };
  const beginEdit = (row: number, column: number, typed: string | null) => {
    if (!canEdit(row, column)) return typed === null ? open(row) : undefined;
    cursor.standOn(row, column);
    setEditing({ row, column, text: typed ?? textAt(row, column), marked: typed === null });
  };
  const commitEdit = (text: string, outcome: CellOutcome | Promise<CellOutcome>, key: EditKey | null) => {
    if (!editing || edited.current !== editing) return;
    const { row, column } = editing;
    if (text !== textAt(row, column)) writes.commit({ row, column }, text, outcome);
    setEditing(null);
    if (!key) return;
    // A row that is only being made stands as another blank line before the next draw.
    const grown = onAppend && row >= rows.length ? 1 : 0;
    cursor.goOn({ row, column }, key, { ...cursor.extent, rows: cursor.extent.rows + grown });
    focusGrid();
  };
  const cancelEdit = () => {
    setEditing(null);
    focusGrid();
  };
  return { editing, canEdit, open, beginEdit, commitEdit, cancelEdit };
};

export type GridEditing = ReturnType<typeof useGridEditing>;

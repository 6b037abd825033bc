import {
  type KeyboardEvent,
  useCallback,
  useEffect,
  useId,
  useImperativeHandle,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import { inField } from '../keys/press-again.ts';
import {
  afterEdit,
  at,
  boxOf,
  clampSelection,
  type Extent,
  everything,
  move,
  type Selection,
} from './cursor.ts';
import { gridCommand } from './grid-keys.ts';
import { type CellOutcome, cellText, isEditable } from './parse-cell.ts';
import { planClear, planFillDown } from './plan-changes.ts';
import type { DataGridProps } from './types.ts';
import { useGridTable } from './use-grid-table.ts';
import { useGridWrites } from './use-grid-writes.ts';

export type EditKey = 'Enter' | 'Shift+Enter' | 'Tab' | 'Shift+Tab';

export interface Editing {
  row: number;
  column: number;
  text: string;
  /** True where the text stood in the cell before: it is marked, so that typing replaces it. */
  marked: boolean;
}

/**
 * All that a grid knows between two draws: order, widths, cursor, what is being edited and what is under way.
 */
export const useGrid = <Row extends object>(props: DataGridProps<Row>) => {
  const { columns, getRowId, onEdit, onAppend, onOpen, onDelete, onSelectionChange, onCursorChange } = props;
  const id = useId();
  const gridRef = useRef<HTMLTableElement>(null);
  const table = useGridTable(props);
  const { rows } = table;
  const writes = useGridWrites(rows, props);
  const { apply } = writes;
  const startColumn = Math.max(
    0,
    columns.findIndex(column => column.id === props.startColumn),
  );
  const [wanted, setSelection] = useState<Selection>(at(0, startColumn));
  const [editing, setShownEditing] = useState<Editing | null>(null);
  // An editor that is left by a key loses the focus a moment later: that must not settle it twice.
  const edited = useRef<Editing | null>(null);
  const pageRows = useRef(10);
  const tabStart = useRef<number | null>(null);
  const entering = useRef(false);

  const setEditing = (next: Editing | null) => {
    edited.current = next;
    setShownEditing(next);
  };

  const extent: Extent = {
    rows: rows.length + writes.blanks,
    columns: columns.length,
    page: pageRows.current,
  };
  const selection = clampSelection(wanted, extent);
  const { focus } = selection;
  const box = boxOf(selection);
  const rowAt = (index: number): Row | null => rows[index] ?? null;
  const writable = onEdit !== undefined || onAppend !== undefined;
  const canEdit = (row: number, column: number): boolean => {
    const definition = columns[column];
    const target = rowAt(row);
    if (!definition || row < 0 || (target ? onEdit === undefined : onAppend === undefined)) return false;
    return isEditable(definition, target);
  };

  const focusGrid = useCallback(() => gridRef.current?.focus({ preventScroll: true }), []);
  const { autoFocus = false } = props;
  const shown = extent.rows > 0 || props.empty === undefined;
  useLayoutEffect(() => {
    if (autoFocus && shown && !inField(document.activeElement)) focusGrid();
  }, [autoFocus, shown, focusGrid]);
  useImperativeHandle(
    props.handle,
    () => ({ focus: focusGrid, toTop: () => gridRef.current?.parentElement?.scrollTo({ top: 0 }) }),
    [focusGrid],
  );
  const { startAt = null } = props;
  const startRow = startAt === null ? -1 : rows.findIndex(row => getRowId(row) === startAt);
  const started = useRef<string | null>(null);
  useEffect(() => {
    if (startAt === started.current || (startAt !== null && startRow < 0)) return;
    started.current = startAt;
    if (startRow >= 0) setSelection(at(startRow, 0));
  }, [startAt, startRow]);
  const goTo = (next: Selection) => {
    setSelection(next);
    tabStart.current = null;
    entering.current = false;
  };
  const open = (row: number) => {
    const target = rowAt(row);
    if (target) onOpen?.(getRowId(target));
  };
  const beginEdit = (row: number, column: number, typed: string | null) => {
    if (!canEdit(row, column)) return typed === null ? open(row) : undefined;
    const definition = columns[column];
    const target = rowAt(row);
    if (!definition) return;
    setSelection(at(row, column));
    setEditing({
      row,
      column,
      text: typed ?? (target ? cellText(definition, target) : ''),
      marked: typed === null,
    });
  };
  const endEdit = (key: EditKey | null) => {
    setEditing(null);
    if (!key || !editing) return;
    const { row, column } = editing;
    if (key === 'Tab') tabStart.current ??= column;
    // A row that is only being made stands as another blank line before the next draw.
    const grown = { ...extent, rows: extent.rows + (onAppend && row >= rows.length ? 1 : 0) };
    const next = afterEdit({ row, column }, key, grown, tabStart.current);
    setSelection({ anchor: next, focus: next });
    entering.current = true;
    if (key === 'Enter' || key === 'Shift+Enter') tabStart.current = null;
    focusGrid();
  };
  const commitEdit = (text: string, outcome: CellOutcome | Promise<CellOutcome>, key: EditKey | null) => {
    if (!editing || edited.current !== editing) return;
    const { row, column } = editing;
    const definition = columns[column];
    const target = rowAt(row);
    const before = definition && target ? cellText(definition, target) : '';
    if (text !== before) writes.commit({ row, column }, text, outcome);
    endEdit(key);
  };
  const content = { rows, columns, getRowId };

  const onKeyDown = (event: KeyboardEvent) => {
    if (editing || event.nativeEvent.isComposing) return;
    const command = gridCommand(event);
    if (!command) return;
    const heading = focus.row < 0;
    if (command.do === 'tab') {
      if (!entering.current) return;
      tabStart.current ??= focus.column;
      const next = afterEdit(focus, command.back ? 'Shift+Tab' : 'Tab', extent, null);
      if (next.row === focus.row && next.column === focus.column) return;
      event.preventDefault();
      return setSelection({ anchor: next, focus: next });
    }
    if (command.do === 'delete rows' && !onDelete) return;
    if (command.do === 'new row' && !onAppend) return;
    if (command.do === 'edit' && command.text !== null && !canEdit(focus.row, focus.column)) return;
    if (command.do === 'resize' && !heading) return;
    event.preventDefault();
    event.stopPropagation();
    const column = columns[focus.column];
    switch (command.do) {
      case 'move':
        return goTo(move(selection, command.step, extent, command.extend));
      case 'edit':
        if (heading) return column && (column.sortable ?? true) ? table.sort(column.id) : undefined;
        return beginEdit(focus.row, focus.column, command.text);
      case 'open':
        return open(focus.row);
      case 'new row':
        return onAppend ? goTo(at(extent.rows - 1, startColumn)) : undefined;
      case 'select all':
        return goTo(everything({ ...extent, rows: rows.length }));
      case 'collapse':
        writes.setMessage(null);
        return goTo({ anchor: focus, focus });
      case 'fill down':
        return box && onEdit ? apply(planFillDown(content, box)) : undefined;
      case 'clear':
        return box && onEdit ? apply(planClear(content, box)) : undefined;
      case 'delete rows':
        return box ? onDelete?.(rows.slice(box.top, box.bottom + 1).map(getRowId)) : undefined;
      case 'resize':
        return column ? table.resize(column.id, command.by) : undefined;
    }
  };

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
  const cursorRow = rows[focus.row];
  const cursorId = cursorRow === undefined ? null : getRowId(cursorRow);
  useLayoutEffect(() => {
    told.current.onCursorChange?.(cursorId);
  }, [cursorId]);

  return {
    id,
    gridRef,
    table,
    rows,
    writes,
    selection,
    box,
    editing,
    extent,
    content,
    writable,
    pageRows,
    canEdit,
    goTo,
    open,
    beginEdit,
    cancelEdit: () => {
      setEditing(null);
      focusGrid();
    },
    commitEdit,
    focusGrid,
    onKeyDown,
  };
};

export type Grid<Row extends object> = ReturnType<typeof useGrid<Row>>;

import type { ReactNode, Ref } from 'react';
import type { Choice } from '../inputs/choices.ts';
import type { ChoiceSource } from '../inputs/use-choices.ts';

export type CellValue = string | number | null;

/** What a text became: a value, or a sentence that says why it cannot be taken. */
export type ParsedCell = { value: CellValue } | { problem: string };

export type CellEditor<Row> =
  | { kind: 'text'; parse?: (text: string, row: Row | null) => ParsedCell; maxLength?: number }
  /** Takes a plain number by default; `parse` for grades, amounts and the like. */
  | { kind: 'number'; parse?: (text: string, row: Row | null) => ParsedCell }
  | { kind: 'select'; choices: readonly Choice[] }
  /**
   * `choices` is a list or a search, kept stable per row; with `freeText` what is in no list is taken
   * as it is written.
   */
  | {
      kind: 'type-ahead';
      choices: (row: Row | null) => ChoiceSource;
      freeText?: boolean;
    };

export interface GridColumn<Row> {
  id: string;
  title: string;
  /** Stands under the title: a unit, a currency, a `WorthAxis`. */
  heading?: ReactNode;
  width: number;
  minWidth?: number;
  /** Takes its part of the width that is left. */
  grow?: number;
  align?: 'start' | 'end' | 'center';
  /** Stays in sight at the left when the grid is scrolled sideways; only for the first columns. */
  pinned?: boolean;
  /** What the column is sorted by. */
  value: (row: Row) => CellValue;
  /** What is copied, filled down and put into the editor; by default the value as text. */
  text?: (row: Row) => string;
  /** What is shown; by default the text. */
  render?: (row: Row) => ReactNode;
  sortable?: boolean;
  editor?: CellEditor<Row>;
  /** What a text that is typed or pasted here stands for, where its owner has said so; null for any other. */
  means?: (text: string) => string | null;
  /** False where this row's cell cannot be edited. */
  editable?: (row: Row) => boolean;
}

export interface CellChange {
  rowId: string;
  columnId: string;
  /** null clears the cell. */
  value: CellValue;
  /** The choice that was taken, for selects and type-aheads; null for free text. */
  choice: Choice | null;
}

/** The cells of a row that was begun in the blank line at the foot, or pasted beyond the last row. */
export type NewRow = Omit<CellChange, 'rowId'>[];

export interface GridSort {
  columnId: string;
  descending?: boolean;
}

/** Rows by their places, both included. */
export interface RowRange {
  first: number;
  last: number;
}

export interface RowState {
  tone: 'caution' | 'harm' | 'good' | 'muted';
  /** What the mark at the row's edge means. */
  label: string;
}

/** What of a list is in sight, and where its cursor stands. */
export interface Sight {
  first: number;
  last: number;
  focus: number;
}

/** The rows of a list of which only those about what is in sight are here. */
export interface WindowedRows<Row> {
  /** As long as the list; a place holds nothing until its row is here. */
  rows: readonly Row[];
  /** The rows that are here, in their order. */
  here: readonly Row[];
  /** The row under the cursor, if it is here. */
  atCursor: Row | null;
  /** True until the first rows of all are here. */
  isFirst: boolean;
  /** True while others come, of another place, filter or order. */
  isComing: boolean;
  /** Where the row stands on which the cursor begins; −1 where that is none, or is not known yet. */
  startRow: number;
  /** True while the service is asked where that row stands. */
  isPlacing: boolean;
  see: (sight: Sight) => void;
  /** All rows from one place to another, in their places. */
  load: (first: number, last: number) => Promise<readonly Row[]>;
}

/** What a screen can ask of its grid. */
export interface GridHandle {
  focus: () => void;
  toTop: () => void;
  /** The ids of the rows that are here, in the order in which they stand. */
  rowIds: () => string[];
}

export interface DataGridProps<Row> {
  /** What the grid is called, for those who hear it. */
  label: string;
  rows: readonly Row[];
  /** Given, `rows` are its: those that are not here yet are asked for as they come into sight. */
  windowed?: WindowedRows<Row>;
  /** Keep it stable: module scope or memo. */
  columns: readonly GridColumn<Row>[];
  getRowId: (row: Row) => string;
  /** One call per edit, fill, paste or clearing, so that each is one action in history. */
  onEdit?: (changes: CellChange[]) => Promise<unknown> | undefined;
  /** Given, a blank line stands at the foot. */
  onAppend?: (rows: NewRow[]) => Promise<unknown> | undefined;
  /** Enter on a cell that is not edited, Ctrl+Enter on any, or a double click. */
  onOpen?: (rowId: string) => void;
  /** The rows of the selected range. */
  onSelectionChange?: (rowIds: string[]) => void;
  /** The selected range by its rows; null where there is none. */
  onRangeChange?: (range: RowRange | null) => void;
  /** The row under the cursor, for an inspector; null on the heading and the blank line. */
  onCursorChange?: (rowId: string | null) => void;
  onDropFiles?: (rowId: string, files: File[]) => void;
  onDelete?: (rowIds: string[]) => void;
  rowState?: (row: Row) => RowState | null;
  rowHeight?: number;
  /** Where the cursor begins, and where a new row is begun; the first column by default. */
  startColumn?: string;
  /** Takes the focus when it appears, but never from a text field: for the grid that a screen is about. */
  autoFocus?: boolean;
  handle?: Ref<GridHandle>;
  /** The row on which the cursor begins, and to which it goes when this changes. */
  startAt?: string | null;
  /** Column and direction to begin with; with `onSort`, those that are in force, null for none. */
  sortedBy?: GridSort | null;
  /** Given, sorting is the screen's to remember: the grid asks, and sorts by `sortedBy`. */
  onSort?: (sort: GridSort | null) => void;
  /** Given, headings are dragged to another place, or moved there by keyboard; never those that are pinned. */
  onMoveColumn?: (columnId: string, to: number) => void;
  /** Stands in the grid's place when there are no rows and no blank line. */
  empty?: ReactNode;
  /** Stands at the foot, beneath the last row. */
  footer?: ReactNode;
  /** Fills its parent by default; or as many pixels. */
  height?: number;
}

/** A cell by its place; row −1 is the heading. */
export interface Spot {
  row: number;
  column: number;
}

/** The cursor stands at `focus`; the range reaches from `anchor` to it. */
export interface Selection {
  anchor: Spot;
  focus: Spot;
}

export interface Extent {
  rows: number;
  columns: number;
  /** Rows that a page key jumps over. */
  page: number;
}

/** The cells between two corners, both included. */
export interface Box {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

export const at = (row: number, column: number): Selection => ({
  anchor: { row, column },
  focus: { row, column },
});

const between = (least: number, value: number, most: number): number =>
  Math.max(least, Math.min(value, most));

/** Keeps a spot inside the grid; the heading counts only for a lone cursor, never for a range. */
export const clampSpot = (spot: Spot, extent: Extent, withHeading = true): Spot => ({
  row: between(withHeading ? -1 : 0, spot.row, Math.max(extent.rows - 1, withHeading ? -1 : 0)),
  column: between(0, spot.column, Math.max(0, extent.columns - 1)),
});

export const clampSelection = ({ anchor, focus }: Selection, extent: Extent): Selection => ({
  anchor: clampSpot(anchor, extent),
  focus: clampSpot(focus, extent),
});

/** The range of a selection; null on the heading. */
export const boxOf = ({ anchor, focus }: Selection): Box | null => {
  if (focus.row < 0) return null;
  const anchorRow = Math.max(0, anchor.row);
  return {
    top: Math.min(anchorRow, focus.row),
    bottom: Math.max(anchorRow, focus.row),
    left: Math.min(anchor.column, focus.column),
    right: Math.max(anchor.column, focus.column),
  };
};

export type Step =
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'row start'
  | 'row end'
  | 'first'
  | 'last'
  | 'top'
  | 'bottom'
  | 'page up'
  | 'page down';

const step = ({ row, column }: Spot, which: Step, { rows, columns, page }: Extent): Spot => {
  switch (which) {
    case 'up':
      return { row: row - 1, column };
    case 'down':
      return { row: row + 1, column };
    case 'left':
      return { row, column: column - 1 };
    case 'right':
      return { row, column: column + 1 };
    case 'row start':
      return { row, column: 0 };
    case 'row end':
      return { row, column: columns - 1 };
    case 'first':
      return { row: 0, column: 0 };
    case 'last':
      return { row: rows - 1, column: columns - 1 };
    case 'top':
      return { row: 0, column };
    case 'bottom':
      return { row: rows - 1, column };
    case 'page up':
      return { row: Math.max(0, row - page), column };
    case 'page down':
      return { row: row + page, column };
  }
};

/** Moves the cursor, or with `extend` the far corner of the range. */
export const move = (selection: Selection, which: Step, extent: Extent, extend = false): Selection => {
  const focus = clampSpot(step(selection.focus, which, extent), extent, !extend);
  if (!extend) return { anchor: focus, focus };
  return { anchor: clampSpot(selection.anchor, extent, false), focus };
};

/** All rows, all columns. */
export const everything = ({ rows, columns }: Extent): Selection => ({
  anchor: { row: 0, column: 0 },
  focus: { row: Math.max(0, rows - 1), column: Math.max(0, columns - 1) },
});

/** The keys that settle an edit and go on. */
export type EditKey = 'Enter' | 'Shift+Enter' | 'Tab' | 'Shift+Tab';

/**
 * Where the cursor goes when an edit is settled: Enter goes down, to the column where a run of Tabs began;
 * Tab goes right, and from the last column to the next row.
 */
export const afterEdit = (spot: Spot, key: EditKey, extent: Extent, tabStart: number | null): Spot => {
  const { row, column } = spot;
  const last = extent.columns - 1;
  switch (key) {
    case 'Enter':
      return clampSpot({ row: row + 1, column: tabStart ?? column }, extent, false);
    case 'Shift+Enter':
      return clampSpot({ row: row - 1, column: tabStart ?? column }, extent, false);
    case 'Tab':
      return clampSpot(
        column < last ? { row, column: column + 1 } : { row: row + 1, column: 0 },
        extent,
        false,
      );
    case 'Shift+Tab':
      return clampSpot(
        column > 0 ? { row, column: column - 1 } : { row: row - 1, column: last },
        extent,
        false,
      );
  }
};

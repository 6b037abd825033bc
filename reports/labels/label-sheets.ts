/**
 * Where the labels of a sheet lie, in millimetres from the page's upper left corner. Sizes are plain
 * measures; common practice, no source.
 */
export interface LabelSheet {
  /** Name in lists, by measure. */
  name: string;
  page: { width: number; height: number };
  columns: number;
  rows: number;
  label: { width: number; height: number };
  /** What stays bare at the sides of each label, where that is more than usual: most printers reach no sheet's edge. */
  inset?: number;
  /** Of the first label. */
  left: number;
  top: number;
  /** From one label's left edge to the next one's, and from one's top to the next one's. */
  across: number;
  down: number;
}

const a4 = { width: 210, height: 297 };
const letter = { width: 215.9, height: 279.4 };

/** Labels that fill a page of `columns` × `rows`, in the middle of it, with `gap` between the columns. */
const centred = (
  page: LabelSheet['page'],
  columns: number,
  rows: number,
  label: LabelSheet['label'],
  gap = 0,
): Omit<LabelSheet, 'name'> => ({
  page,
  columns,
  rows,
  label,
  left: (page.width - columns * label.width - (columns - 1) * gap) / 2,
  top: (page.height - rows * label.height) / 2,
  across: label.width + gap,
  down: label.height,
});

const roll = (width: number, height: number): Omit<LabelSheet, 'name'> =>
  centred({ width, height }, 1, 1, { width, height });

/** The sheets and rolls that are known, by a key that the command line and the screens share. */
export const labelSheets = {
  'a4-3x8': {
    name: 'A4, 24 labels of 70 × 36 mm',
    inset: 5,
    ...centred(a4, 3, 8, { width: 70, height: 36 }),
  },
  'a4-3x7': {
    name: 'A4, 21 labels of 63.5 × 38.1 mm',
    ...centred(a4, 3, 7, { width: 63.5, height: 38.1 }, 2.5),
  },
  'a4-5x13': {
    name: 'A4, 65 labels of 38.1 × 21.2 mm',
    ...centred(a4, 5, 13, { width: 38.1, height: 21.2 }, 2.5),
  },
  'letter-3x10': {
    name: 'US Letter, 30 labels of 2⅝ × 1 in',
    ...centred(letter, 3, 10, { width: 66.675, height: 25.4 }, 3.175),
  },
  'letter-4x20': {
    name: 'US Letter, 80 labels of 1¾ × ½ in',
    ...centred(letter, 4, 20, { width: 44.45, height: 12.7 }, 7.62),
  },
  'roll-57x32': { name: 'Roll, one label of 57 × 32 mm', ...roll(57, 32) },
  'roll-62x29': { name: 'Roll, one label of 62 × 29 mm', ...roll(62, 29) },
} as const satisfies Record<string, LabelSheet>;

export type LabelSheetKey = keyof typeof labelSheets;
export const labelSheetKeys = Object.keys(labelSheets) as LabelSheetKey[];

/** Where a label lies, counted from 0 along the rows: its page, and millimetres from that page's corner. */
export const labelPlace = (sheet: LabelSheet, position: number): { page: number; x: number; y: number } => {
  const perPage = sheet.columns * sheet.rows;
  const onPage = position % perPage;
  return {
    page: Math.floor(position / perPage),
    x: sheet.left + (onPage % sheet.columns) * sheet.across,
    y: sheet.top + Math.floor(onPage / sheet.columns) * sheet.down,
  };
};

/** Throws RangeError where a sheet has no such first place, counted from 1 along the rows. */
export const checkStart = ({ columns, rows }: LabelSheet, start: number): void => {
  const places = columns * rows;
  if (!Number.isSafeInteger(start) || start < 1 || start > places)
    throw new RangeError(
      `This sheet has ${places} labels: the first can be 1 to ${places}, not on ${start}.`,
    );
};

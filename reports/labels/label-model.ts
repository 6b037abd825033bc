import { encode } from 'uqr';
import { printableLine } from '../printable.ts';
import { checkStart, type LabelSheet, labelPlace } from './label-sheets.ts';

/** What a label says: the inventory number large and as a QR code, the car's name, its colour
 * and what has become of its finish. */
export interface Label {
  number: string;
  name: string;
  colour: string;
}

/** A QR code's dark modules, row by row as runs of [first column, length]: few rectangles instead of many. */
const runsOf = (text: string): { size: number; runs: [number, number, number][] } => {
  // ISO/IEC 18004 level M: a seventh of the code may be scuffed.
  const { data, size } = encode(text, { ecc: 'M', border: 0 });
  const runs: [number, number, number][] = [];
  for (const [y, row] of data.entries())
    for (let x = 0; x < size; x += 1) {
      if (!row[x]) continue;
      let length = 1;
      while (row[x + length]) length += 1;
      runs.push([y, x, length]);
      x += length;
    }
  return { size, runs };
};

/**
 * What the template is given of labels. `start` is the place of the first, counted from 1 along the rows, so
 * that a sheet that was begun is used up. Throws RangeError where the sheet has no such place.
 */
export const labelModel = (labels: Label[], sheet: LabelSheet, start: number): unknown => {
  checkStart(sheet, start);
  const pages: unknown[][] = [];
  for (const [i, label] of labels.entries()) {
    const { page, x, y } = labelPlace(sheet, start - 1 + i);
    pages[page] ??= [];
    pages[page].push({
      x,
      y,
      number: printableLine(label.number),
      name: printableLine(label.name),
      colour: printableLine(label.colour),
      code: runsOf(label.number),
    });
  }
  return { page: sheet.page, label: sheet.label, pages };
};

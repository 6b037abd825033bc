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

/** Labels that one document holds about: so much bounds the memory in which it is set. */
export const mostLabels = 500;

/**
 * The labels in stretches of whole sheets, each to be set as a document of its own, with the place of its
 * first. Throws RangeError where the sheet has no such place.
 */
export const labelParts = (
  labels: Label[],
  sheet: LabelSheet,
  start: number,
): { labels: Label[]; start: number; headings: [] }[] => {
  checkStart(sheet, start);
  if (labels.length <= 2 * mostLabels) return [{ labels, start, headings: [] }];
  const onSheet = sheet.columns * sheet.rows;
  const most = Math.max(1, Math.floor(mostLabels / onSheet)) * onSheet;
  const first = most - (start - 1);
  const parts = [{ labels: labels.slice(0, first), start, headings: [] as [] }];
  for (let at = first; at < labels.length; at += most)
    parts.push({ labels: labels.slice(at, at + most), start: 1, headings: [] });
  return parts;
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
  return { page: sheet.page, label: sheet.label, inset: sheet.inset ?? null, pages };
};

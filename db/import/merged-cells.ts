import { identityFields } from '../records/own-words/texts.ts';
import { cellText } from './files/cell-text.ts';
import type { Mapping } from './mapping.ts';
import type { Cell, TableRow } from './types.ts';

/** Our columns in which a cell that is merged over several rows says the same of each of them. */
const saidOfEach: ReadonlySet<string> = new Set([
  ...identityFields,
  'location',
  'seller',
  'source',
  'bought_on',
  'sold_on',
  'price_paid_currency',
  'currency',
]);

/** Our columns in which such a cell is of all rows together, so that it is none of theirs. */
const saidOfAll: ReadonlySet<string> = new Set([
  'price',
  'price_paid',
  'own_estimate',
  'sold_for',
  'quantity',
]);

/**
 * An amount of several rows, as each of them has it: none of theirs, so that its owner is asked what one
 * brought.
 */
const textOfAll = (cell: Cell, from: number, to: number): string =>
  `${cellText(cell)} over ${to - from + 1} rows`;

/** True of what stands for an amount of several rows together. */
export const isOfSeveralRows = (text: string): boolean => / over \d+ rows$/.test(text);

/**
 * The row with what is merged down into it from above, where that is said of each of the rows; an amount that
 * is of all of them together is nobody's.
 */
export const withMerged = (row: TableRow, { columns }: Mapping): TableRow => {
  if (!row.merged) return row;
  const cells = [...row.cells];
  for (const [place, { cell, from, to }] of row.merged) {
    const ours = columns[place]?.ours;
    if (ours && saidOfAll.has(ours)) {
      while (cells.length < place) cells.push(null);
      cells[place] = textOfAll(cell, from, to);
      continue;
    }
    if (!ours || !saidOfEach.has(ours) || cellText(cells[place] ?? null) !== '') continue;
    while (cells.length < place) cells.push(null);
    cells[place] = cell;
  }
  return { ...row, cells };
};

/** Warns, once for each column, of an amount or a number that is merged over several rows of the list. */
export const warnOfMerged = (
  { merged }: TableRow,
  { columns, warnings }: Mapping,
  told: Set<number>,
): void => {
  for (const [place, { cell, from, to }] of merged ?? []) {
    const column = columns[place];
    if (!column?.ours || !saidOfAll.has(column.ours) || told.has(place)) continue;
    told.add(place);
    warnings.push(
      `"${column.heading}" has a cell merged over several rows from line ${from} on: it is read for none of them, since nobody knows how much of it is each one's. Say what each has under "${textOfAll(cell, from, to)}".`,
    );
  }
};

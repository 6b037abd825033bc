import type { Mapping } from './mapping.ts';
import type { Cell, TableRow } from './types.ts';

/** How people write that a cell says the same as the one above it. Common practice, no source. */
const ditto =
  /^(?:ditto|dto\.?|do\.|idem|id\.|as above|same(?: as above)?|desgl\.?|dasselbe|["″〃”“„]|''|-["″”“]-)$/i;
const longest = 'same as above'.length;
const beginnings = new Set([...'dDiIaAsS"″〃”“„\'-'].map(letter => letter.charCodeAt(0)));

const isDitto = (cell: Cell): boolean =>
  typeof cell === 'string' &&
  cell.length <= longest + 2 &&
  beginnings.has(cell.trimStart().charCodeAt(0)) &&
  ditto.test(cell.trim());

/**
 * Reads rows of a list in their order, each with what the row above it says where it says "ditto". The number
 * of a car is never another's.
 */
export const dittoReader = ({ places }: Mapping): (<R extends TableRow>(row: R) => R) => {
  const number = places.get('inventory_number');
  let above: readonly Cell[] = [];
  return row => {
    const isSame = (cell: Cell, place: number) => place !== number && isDitto(cell) && above[place] != null;
    const read = row.cells.some(isSame)
      ? {
          ...row,
          cells: row.cells.map((cell, place) => (isSame(cell, place) ? (above[place] ?? null) : cell)),
        }
      : row;
    above = read.cells;
    return read;
  };
};

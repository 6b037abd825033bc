import type { Mapping } from './mapping.ts';
import type { Cell, TableRow } from './types.ts';

/** How people write that a cell says the same as the one above it. Common practice, no source. */
const ditto =
  /^(?:ditto|dto\.?|do\.|idem|id\.|as above|same(?: as above)?|desgl\.?|dasselbe|["″〃”“„]|''|-["″”“]-)$/i;
const longest = 'same as above'.length;
const beginnings = new Set([...' dDiIaAsS"″〃”“„\'-'].map(letter => letter.charCodeAt(0)));

/** Most cells begin with another letter, or are longer. */
const mayBeDitto = (cell: Cell): cell is string =>
  typeof cell === 'string' && cell.length <= longest + 2 && beginnings.has(cell.charCodeAt(0));

/**
 * Reads rows of a list in their order, each with what the row above it says where it says "ditto". The number
 * of a car is never another's.
 */
export const dittoReader = ({ places }: Mapping): (<R extends TableRow>(row: R) => R) => {
  const number = places.get('inventory_number');
  let above: readonly Cell[] = [];
  return row => {
    let cells: Cell[] | null = null;
    for (let place = 0; place < row.cells.length; place++) {
      const cell = row.cells[place] ?? null;
      if (!mayBeDitto(cell) || place === number || !ditto.test(cell.trim())) continue;
      const said = above[place] ?? null;
      if (said === null) continue;
      cells ??= [...row.cells];
      cells[place] = said;
    }
    above = cells ?? row.cells;
    return cells ? { ...row, cells } : row;
  };
};

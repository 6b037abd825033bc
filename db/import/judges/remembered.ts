import type { Cell, Reading } from '../../../valuation/reading/reading.ts';

type Parse<T> = (cell: Cell) => Reading<T>;

const maxEntries = 5000;

/**
 * The same reading, which remembers what a text came to: the columns of a list repeat themselves.
 * Memory stays bounded.
 */
export const remembered = <T>(parse: Parse<T>): Parse<T> => {
  const known = new Map<string, Reading<T>>();
  return cell => {
    if (typeof cell !== 'string') return parse(cell);
    const before = known.get(cell);
    if (before) return before;
    const outcome = parse(cell);
    if (known.size >= maxEntries) known.clear();
    known.set(cell, outcome);
    return outcome;
  };
};

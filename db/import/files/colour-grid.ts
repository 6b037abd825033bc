import { isPlainColour } from '../../../valuation/reading/plain-colour.ts';
import { plainWord } from '../../../valuation/reading/words.ts';
import { saysNo, saysYes } from '../../../valuation/reading/yes-no.ts';
import type { Cell, TableRow } from '../types.ts';
import { cellText, isBlank } from './cell-text.ts';
import type { HeadingReader } from './headings.ts';

/** So many rows must look so at its head. */
const mostLooked = 60;
/** Titles that may be above it. */
const mostTitles = 3;
const count = /^\d{1,2}$/;

const isMark = (text: string): boolean => text === '' || saysYes(text) || saysNo(text) || count.test(text);

interface Grid {
  /** Place of the headings among the rows. */
  at: number;
  /** The colours, by their columns. */
  colours: Map<number, string>;
  /** Places of all other columns. */
  others: number[];
}

/** The grid that rows begin with: a column of names, and columns headed by colours with nothing but marks in them. */
const gridIn = (rows: readonly TableRow[], reader: HeadingReader): Grid | null => {
  const at = rows
    .slice(0, mostTitles + 1)
    .findIndex(({ cells }) => cells.filter(cell => cellText(cell) !== '').length > 2);
  const texts = rows[at]?.cells.map(cellText) ?? [];
  const body = rows.slice(at + 1, at + 1 + mostLooked);
  const namesCars = ['casting', 'description'].includes(reader.meaning(texts[0] ?? '') ?? '');
  if (at < 0 || !namesCars || body.length === 0) return null;
  const isColour = (text: string) => reader.colours.has(plainWord(text)) || isPlainColour(text);
  const colours = new Map(
    texts.flatMap((text, place) => (place > 0 && isColour(text) ? [[place, text] as const] : [])),
  );
  const marks = body.flatMap(({ cells }) => [...colours.keys()].map(place => cellText(cells[place] ?? null)));
  return colours.size >= 2 && marks.every(isMark) && marks.some(Boolean)
    ? { at, colours, others: texts.flatMap((_, place) => (colours.has(place) ? [] : [place])) }
    : null;
};

/** A row for each colour that is marked; where none is, the row as it stands, of none. */
const unfolded = ({ line, cells }: TableRow, { colours, others }: Grid): TableRow[] => {
  const rest = others.map(place => cells[place] ?? null);
  const marked = [...colours].flatMap(([place, colour]): Cell[][] => {
    const text = cellText(cells[place] ?? null);
    if (text === '' || text === '0' || saysNo(text)) return [];
    return [[colour, count.test(text) ? text : '1']];
  });
  return (marked.length > 0 ? marked : [['', '0']]).map(said => ({ line, cells: [...rest, ...said] }));
};

const listOf = (rows: readonly TableRow[], grid: Grid): TableRow[] =>
  rows.flatMap(row => unfolded(row, grid));

/** The same of the rows that the grid begins with: titles, its headings, and what is below them. */
const beginningOf = (rows: readonly TableRow[], grid: Grid): TableRow[] => {
  const headings = rows.slice(grid.at, grid.at + 1).map(({ line, cells }) => ({
    line,
    cells: [...grid.others.map(place => cells[place] ?? null), 'colour', 'quantity'],
  }));
  return [...rows.slice(0, grid.at), ...headings, ...listOf(rows.slice(grid.at + 1), grid)];
};

/**
 * Reads a grid of castings and colours, in which a mark or a number says which of them there are, as a list of
 * these cars with their colours and how many there are of each; any other table as it is. What is read is said by
 * `onGrid`.
 */
export const withGridUnfolded = (
  read: () => AsyncGenerator<TableRow[]>,
  reader: HeadingReader,
  onGrid: (sentence: string) => void,
): (() => AsyncGenerator<TableRow[]>) => {
  let isTold = false;
  return async function* () {
    let grid: Grid | null | undefined;
    for await (const batch of read()) {
      const filled = grid === null ? batch : batch.filter(({ cells }) => !isBlank(cells));
      if (grid !== undefined || filled.length === 0) {
        yield grid ? listOf(filled, grid) : batch;
        continue;
      }
      grid = gridIn(filled, reader);
      if (grid && !isTold) {
        isTold = true;
        onGrid(`Line ${filled[grid.at]?.line} is read as names of paint, and each mark below it as a car.`);
      }
      yield grid ? beginningOf(filled, grid) : batch;
    }
  };
};

import { plainWord } from '../../valuation/reading/words.ts';
import { areGrades } from './ambiguous-headings.ts';
import { type CellKind, kindOfCell } from './files/cell-kind.ts';
import { cellText } from './files/cell-text.ts';
import type { Table } from './files/table.ts';
import { namesPlace } from './put-away.ts';
import type { Cell, ImportKind } from './types.ts';

/** What the cells of a column are like, blank ones left out. */
class Cells {
  readonly texts: string[];
  readonly #filled: Cell[];
  readonly #colours: ReadonlySet<string>;
  #kinds: CellKind[] | null = null;

  constructor({ sample, colours }: Table, index: number) {
    this.#filled = sample.map(row => row.cells[index] ?? null).filter(cell => cellText(cell) !== '');
    this.texts = this.#filled.map(cellText);
    this.#colours = colours;
  }

  get kinds(): CellKind[] {
    this.#kinds ??= this.#filled.map(cell => kindOfCell(cell, this.#colours));
    return this.#kinds;
  }
}

const share = ({ kinds }: Cells, ...of: CellKind[]): number =>
  kinds.length === 0 ? 0 : kinds.filter(kind => of.includes(kind)).length / kinds.length;

const isDistinct = ({ texts }: Cells): boolean => new Set(texts).size === texts.length;

/**
 * Figures from 1 on, each larger than the one before it. Where all can be years, as in a list by year, they
 * are numbers only if each is the next.
 */
const isNumbering = (cells: Cells): boolean => {
  const steps = cells.texts.slice(1).map((text, index) => Number(text) - Number(cells.texts[index]));
  const areYears = share(cells, 'year') === 1;
  return (
    share(cells, 'whole', 'year') === 1 &&
    steps.length > (areYears ? 1 : 0) &&
    steps.every(step => (areYears ? step === 1 : step > 0))
  );
};

/** Two figures that can only be years of the last century, as "68". */
const isShortYear = ({ texts }: Cells): boolean =>
  texts.length > 0 &&
  texts.every(text => /^['’]?[4-9]\d$|^['’]?\d{2}$/.test(text) && Number(text.slice(-2)) >= 40);

const isTenth = ({ texts }: Cells): boolean =>
  texts.every(text => /^(?:10|\d)(?:[.,]5)?$/.test(text)) &&
  texts.some(text => /5$/.test(text) && /[.,]/.test(text));

type Guess = [ours: string, fits: (cells: Cells) => boolean];

const common: Guess[] = [
  ['description', cells => share(cells, 'mixed') >= 0.5],
  ['release_year', cells => share(cells, 'year') >= 0.7 || isShortYear(cells)],
  ['grade', cells => share(cells, 'grade') >= 0.6 || isTenth(cells)],
];
const behind: Guess[] = [
  ['colour', cells => share(cells, 'colour') >= 0.25 && share(cells, 'colour', 'word') >= 0.8],
  ['finish_state', cells => share(cells, 'finish') >= 0.5],
  ['base_paint', cells => share(cells, 'base paint') >= 0.5],
];
const guesses: Record<ImportKind, Guess[]> = {
  lot: [
    ['inventory_number', cells => isNumbering(cells) || (share(cells, 'code') >= 0.8 && isDistinct(cells))],
    ...common,
    ['bought_on', cells => share(cells, 'date') >= 0.7],
    ['price_paid', cells => share(cells, 'amount') >= 0.6],
    ...behind,
  ],
  sales: [
    ...common.slice(0, 1),
    ['sold_on', cells => share(cells, 'date') >= 0.7],
    ...common.slice(1),
    ['price', cells => share(cells, 'amount') >= 0.6 || share(cells, 'whole', 'number') >= 0.9],
    ...behind,
  ],
  reference: [...common.slice(1, 2), ...behind],
};

/** Words that begin with a capital, as names of cars do. */
const named = ({ texts }: Cells): number =>
  texts.filter(text => /^\p{Lu}\p{L}+(?: [\p{L}./-]+){0,4}$/u.test(text)).length / Math.max(1, texts.length);

/**
 * Of nameless columns that nothing else fits: where the cars are kept, and remarks, which stand behind the
 * rest and seldom twice alike.
 */
const guessBehind = (
  columns: { index: number; cells: Cells }[],
  found: Map<number, string>,
  used: Set<string>,
  nameless: ReadonlySet<number>,
): void => {
  const open = columns.filter(({ index }) => nameless.has(index) && !found.has(index));
  const place = open.find(
    ({ cells }) => cells.texts.filter(text => namesPlace(text)).length >= cells.texts.length * 0.7,
  );
  if (place && !used.has('location')) {
    found.set(place.index, 'location');
    used.add('location');
  }
  const last = open.filter(({ index }) => !found.has(index)).at(-1);
  if (!last || used.has('notes') || last.index !== Math.max(...columns.map(({ index }) => index))) return;
  const { texts } = last.cells;
  const isRemarks =
    share(last.cells, 'word', 'mixed', 'colour', 'finish') >= 0.8 &&
    new Set(texts).size > texts.length * 0.7 &&
    texts.filter(text => /[ ,]/.test(text)).length >= texts.length * 0.5 &&
    named(last.cells) < 0.5;
  if (!isRemarks) return;
  found.set(last.index, 'notes');
  used.add('notes');
};

/**
 * Where names of cars stand in a column of their own left of the one of several facts, that one tells of them:
 * it is remarks.
 */
const nameBeside = (
  columns: { index: number; cells: Cells }[],
  found: Map<number, string>,
  as: ImportKind,
): void => {
  const described = [...found].find(([, ours]) => ours === 'description')?.[0];
  if (described === undefined || as !== 'lot' || [...found.values()].includes('notes')) return;
  const name = columns.find(
    ({ index, cells }) =>
      index < described &&
      !found.has(index) &&
      share(cells, 'word') >= 0.8 &&
      named(cells) >= 0.7 &&
      new Set(cells.texts).size >= Math.max(2, cells.texts.length * 0.3),
  );
  if (!name) return;
  found.set(described, 'notes');
  found.set(name.index, 'casting');
};

/**
 * What columns hold by their cells, by place: of those that nobody has named, and, where nothing else says
 * which car a row is, of any other. What fits none stays open.
 */
export const guessColumns = (
  table: Table,
  as: ImportKind,
  taken: ReadonlySet<string>,
  isFree: (index: number) => boolean,
): Map<number, string> => {
  const { headings, nameless } = table;
  const found = new Map<number, string>();
  const used = new Set(taken);
  const columns = headings
    .map((_, index) => index)
    .filter(isFree)
    .map(index => ({ index, cells: new Cells(table, index) }))
    .filter(({ cells }) => cells.texts.length > 0);
  for (const { index, cells } of columns.filter(column => nameless.has(column.index))) {
    const guess = guesses[as].find(([ours, fits]) => !used.has(ours) && fits(cells));
    if (!guess) continue;
    found.set(index, guess[0]);
    used.add(guess[0]);
  }
  if (as === 'lot') guessBehind(columns, found, used, nameless);
  if (used.has('casting') || used.has('release_name')) return found;
  nameBeside(columns, found, as);
  if ([...found.values()].includes('casting')) return found;
  const open = columns.filter(({ index }) => !found.has(index));
  const best = open
    .filter(({ cells }) => share(cells, 'word', 'colour', 'mixed') >= 0.6 && !areGrades(cells.texts))
    .map(({ index, cells }) => ({
      index,
      cells,
      score: named(cells) + new Set(cells.texts.map(plainWord)).size / cells.texts.length,
    }))
    .sort((a, b) => b.score - a.score || a.index - b.index)[0];
  if (!best || used.has('description')) return found;
  return found.set(
    best.index,
    share(best.cells, 'mixed') >= 0.5 && as !== 'reference' ? 'description' : 'casting',
  );
};

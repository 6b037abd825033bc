import type { Cell } from '../../../valuation/reading/reading.ts';
import { plainWord } from '../../../valuation/reading/words.ts';
import { meaningsByWords } from '../heading-words.ts';
import { recogniseHeading } from '../recognise-headings.ts';
import type { ImportOptions, TableRow } from '../types.ts';
import { type CellKind, kindOfCell } from './cell-kind.ts';
import { cellText } from './cell-text.ts';

/** Headings that are as likely a cell of a list, such as the answer "no". */
const weakHeadings = new Set([
  'no',
  'c',
  'x',
  'rear',
  'inside',
  'where',
  'missing',
  'incomplete',
  'loose parts',
  'top',
]);

/** Our columns that tell which car a row is. */
const naming = new Set(['casting', 'release_name', 'description', 'inventory_number']);

const figure = /\d/;
const longestHeading = 40;
const mostRemembered = 2000;

/** Tells headings from the cells of a list: those that we know, or that the owner has mapped. */
export class HeadingReader {
  readonly #options: ImportOptions;
  /** Plain words of the colours that the reference names. */
  readonly colours: ReadonlySet<string>;
  /** What the owner says of headings, by their plain words. */
  readonly #mapped: ReadonlyMap<string, string | null>;
  readonly #known = new Map<string, number>();

  constructor(options: ImportOptions, colours: ReadonlySet<string>) {
    this.#options = options;
    this.colours = colours;
    this.#mapped = new Map(Object.entries(options.map).map(([theirs, ours]) => [plainWord(theirs), ours]));
  }

  /**
   * How surely a text is a heading: 3 where the owner has mapped it, 1 where we know it, less where it may as
   * well be a cell or has only words in it that headings have, else 0.
   */
  weight(text: string): number {
    if (text.length > longestHeading) return 0;
    // No heading that we know has figures in it, and most cells that are looked at here do.
    if (this.#mapped.size === 0 && figure.test(text)) return 0;
    const before = this.#known.get(text);
    if (before !== undefined) return before;
    const word = plainWord(text);
    const weight = this.#mapped.has(word)
      ? 3
      : recogniseHeading(this.#options.as, text)
        ? weakHeadings.has(word)
          ? 0.4
          : 1
        : meaningsByWords(this.#options.as, text).length > 0
          ? 0.5
          : 0;
    if (this.#known.size < mostRemembered) this.#known.set(text, weight);
    return weight;
  }

  /**
   * Our column that a heading is given to, by the owner or else commonly; null where there is none.
   */
  meaning(text: string): string | null {
    const said = this.#mapped.get(plainWord(text));
    if (said !== undefined) return said;
    return (
      recogniseHeading(this.#options.as, text)?.ours ?? meaningsByWords(this.#options.as, text)[0] ?? null
    );
  }

  /** The headings that the owner has mapped and that are not among these, as plain words. */
  mappedBeside(texts: readonly string[]): ReadonlySet<string> {
    const known = new Set(texts.map(plainWord));
    return new Set([...this.#mapped.keys()].filter(word => !known.has(word)));
  }

  /** True where one of the cells is a heading that the owner has mapped. */
  hasMapped(cells: Cell[]): boolean {
    return this.#mapped.size > 0 && cells.some(cell => this.#mapped.has(plainWord(cellText(cell))));
  }

  /** How much a line looks like headings: those known, less the cells that are figures. */
  score(cells: Cell[]): number {
    let score = 0;
    for (const cell of cells) {
      const text = cellText(cell);
      if (text === '') continue;
      const weight = this.weight(text);
      if (weight >= 3) score += weight;
      else if (typeof cell !== 'string' || /^[\d.,\s]+$/.test(text)) score -= 1;
      else score += weight;
    }
    return score;
  }

  /** True for headings of a list of which none can tell which car a row is: a line above the rows may. */
  leaveCarsToSections(cells: Cell[]): boolean {
    const texts = cells.map(cellText).filter(text => text !== '');
    const isOpen = texts.every(text => {
      const meaning = this.meaning(text);
      return !this.#mapped.has(plainWord(text)) && (meaning === null || !naming.has(meaning));
    });
    return isOpen && this.score(cells) >= 2;
  }

  /**
   * True for headings of a list of cars: one of them tells which car a row is, and it is not the only one
   * known among several.
   */
  nameCars(cells: Cell[]): boolean {
    const filled = cells.filter(cell => cellText(cell) !== '').length;
    if (this.score(cells) < Math.min(2, filled)) return false;
    return cells.some(cell => {
      const text = cellText(cell);
      return text !== '' && (this.weight(text) >= 3 || naming.has(this.meaning(text) ?? ''));
    });
  }

  /**
   * True where a line below the first headings can only be headings again: several are known, or it begins as
   * those of the block do (`first`). Most lines are settled by their first cells.
   */
  isHeadings(cells: Cell[], first: string): boolean {
    let filled = 0;
    for (const cell of cells) {
      if (cell === null || cell === '') continue;
      if (typeof cell !== 'string') return false;
      if (this.weight(cell.trim()) > 0) break;
      if (++filled === 3) return false;
    }
    const texts = cells.map(cellText).filter(text => text !== '');
    const known = texts.filter(text => this.weight(text) >= 1).length;
    const beginsAlike = first !== '' && texts[0] === first && texts.length > 1;
    return beginsAlike
      ? known >= 1 && this.score(cells) >= 1
      : known >= 2 && known >= texts.length / 2 && this.score(cells) >= 2;
  }
}

/** The cells of a column that are not blank, by what they look like. */
const kindsBelow = (rows: TableRow[], column: number, colours: ReadonlySet<string>): CellKind[] =>
  rows.map(({ cells }) => kindOfCell(cells[column] ?? null, colours)).filter(kind => kind !== 'blank');

const usual = (kinds: CellKind[]): CellKind | null => {
  const counts = new Map<CellKind, number>();
  for (const kind of kinds) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const [first] = [...counts].sort((a, b) => b[1] - a[1]);
  return first && first[1] >= kinds.length * 0.6 ? first[0] : null;
};

const isPlainKind = (kind: CellKind | null) => kind === null || kind === 'word' || kind === 'mixed';

/**
 * True where the first of the rows is headings that nobody knows: it has words where the rows below it have
 * figures, days or colours, those of the reference (`colours`) among them. Where it is like the rows below,
 * it is one of them.
 */
export const isUnknownHeadings = ([first, ...below]: TableRow[], colours: ReadonlySet<string>): boolean => {
  if (!first || below.length === 0) return false;
  const filled = first.cells.flatMap((cell, index) => (cellText(cell) === '' ? [] : [index]));
  if (filled.length < 2) return false;
  let forHeadings = 0;
  let forData = 0;
  for (const index of filled) {
    const own = kindOfCell(first.cells[index] ?? null, colours);
    const kind = usual(kindsBelow(below, index, colours));
    if (!isPlainKind(own)) forData++;
    else if (!isPlainKind(kind)) forHeadings++;
  }
  return forHeadings > forData || (forData === 0 && below.length < 2);
};

const collectives =
  /(?:^|\P{L})(?:my|our|cars|autos|models|modelle|voitures|coches|collection|sammlung|list|liste|inventory|sales|verkaufe|bought|updated?|drawer|shelf|cabinet|everything|page|sheet)(?:$|\P{L})/iu;

/** A line that begins so tells of the list, however much it says. */
const listed =
  /^[^\p{L}\d]*(?:inventory|stock ?list|stock ?book|car ?list|list of|catalogue of|bestand|inventar|inventaire|inventario)(?!\p{L})/iu;

/**
 * True for a line of one text that says what a list is, such as "Cars in the blue drawer", and
 * not what a car is.
 */
export const isTitle = (text: string): boolean => {
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '');
  return (
    isRemark(text) ||
    (plain.length <= 120 && listed.test(plain)) ||
    (plain.length <= 60 && !/[★,;]|\bc ?\d|\/10/iu.test(plain) && collectives.test(plain))
  );
};

/**
 * True for a line of one text among the rows of a list that can only be said of the rows below it, such
 * as "Bottom shelf:".
 */
export const isRemark = (text: string): boolean =>
  /^[\s=*_#~-]+$|:\s*$|^(?:-{2,}|={2,}|\*{2,}).*(?:-{2,}|={2,}|\*{2,})$/.test(text) ||
  /(?:^|\P{L})(?:shelf|drawer|cabinet)(?: \p{L}{1,2}| \d+)?$/iu.test(text);

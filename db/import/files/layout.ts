import { plainWord } from '../../../valuation/reading/words.ts';
import { isTotalsRow } from '../judges/totals.ts';
import type { TableRow } from '../types.ts';
import { cellText } from './cell-text.ts';
import { type HeadingReader, isRemark, isTitle, isUnknownHeadings } from './headings.ts';

/**
 * Columns of a block that stand beside one another: from which cell on, and where each of them goes in
 * the whole table.
 */
interface Part {
  start: number;
  places: number[];
}

type Merged = NonNullable<TableRow['merged']>;

/** What is merged down into the row of one part, by its places in the whole table. */
const placedIn = ({ start, places }: Part, merged: Merged): Merged =>
  new Map(
    [...merged].flatMap(([column, cell]) => {
      const place = places[column - start];
      return place === undefined ? [] : [[place, cell] as const];
    }),
  );

interface SheetToBegin {
  sheet: string | undefined;
  /** Some sheet of the file has headings of a list of cars; one without them is then something else. */
  hasLists: boolean;
  /** The line of its headings, as its owner says; 0 where it has none. */
  headingLine?: number | undefined;
}

/** Lines among which the first headings are looked for. */
export const headLines = 20;

/**
 * Where the rows of a file lie: titles above the headings, blocks below and beside one another each with its
 * own headings, and sheets. All become rows of one table, in which a heading stands once, wherever it stood.
 */
export class Layout {
  readonly headings: string[] = [];
  /** The columns that the file itself does not name. */
  readonly nameless = new Set<number>();
  headingLine = 0;
  /** Plain words of headings further down that stand over a column of an earlier block. */
  readonly likeOthers = new Set<string>();
  readonly #reader: HeadingReader;
  readonly #byKey = new Map<string, number>();
  readonly #byMeaning = new Map<string, number>();
  #parts: Part[] = [];
  /** The cells of a row stand where those of the table do. */
  #isStraight = false;
  /** One list of several columns: a line of one text may then be no row of it. */
  #isWide = false;
  /** The column of the names that stand alone above their rows, where the headings name no car. */
  section: number | null = null;
  #inSections = false;
  #sectionName: string | null = null;
  #sheet: string | undefined;
  #isFirst = true;
  /** The line of the block's headings; what is merged down from it or from above it is said of no row. */
  #blockLine = 0;
  /** The first heading of the block. */
  #first = '';
  #overflowed: number | null = null;
  /** A line of one text, of which the next line tells whether it is a title. */
  #held: TableRow | null = null;

  /** Headings that the owner has mapped and that the first ones are not: they stand further down. */
  #awaited: ReadonlySet<string> = new Set();
  readonly #warnings: string[];

  /** What there is to say of the headings goes to `warnings`. */
  constructor(reader: HeadingReader, warnings: string[]) {
    this.#reader = reader;
    this.#warnings = warnings;
  }

  /**
   * Begins a sheet (or the file) with its first filled rows, laid out into `into`. A sheet without
   * headings goes by the places of its cells where no sheet has any; where others do (`hasLists`), its
   * lines are no list.
   */
  begin(head: TableRow[], into: TableRow[], { sheet, hasLists, headingLine }: SheetToBegin): void {
    this.#sheet = sheet;
    this.#held = null;
    const isSaid = headingLine !== undefined;
    const at = isSaid ? head.findIndex(row => row.line === headingLine) : this.findHeadings(head);
    if (!isSaid && hasLists && !this.#reader.nameCars(head[at]?.cells ?? [])) {
      this.#parts = [];
      for (const row of head) into.push(this.#said(row, 'not a list'));
      return;
    }
    if (at >= 0) {
      for (const row of head.slice(0, at)) into.push(this.#said(row, 'a title'));
      this.#openBlock(head[at] as TableRow, into);
    } else this.#openNameless(head);
    for (const row of head.slice(at >= 0 ? at + 1 : isSaid ? 0 : this.#titlesOf(head, into)))
      this.lay(row, into);
  }

  /** A filled row where it belongs; headings and titles come marked as what they are. */
  lay(row: TableRow, into: TableRow[]): void {
    if (this.#isAwaited(row) || this.#reader.isHeadings(row.cells, this.#first)) {
      this.#release(true, into);
      this.#openBlock(row, into);
      return;
    }
    if (this.#held) this.#release(false, into);
    if (this.#isWide && !row.merged && this.#filled(row, 2) === 1) this.#held = row;
    else this.#place(row, into);
  }

  /** What was held back, at the end of a sheet. */
  end(into: TableRow[]): void {
    this.#release(false, into);
  }

  /**
   * True where rows stand with cells beyond headings to which others have come since: they are to
   * be laid out again.
   */
  get isOutgrown(): boolean {
    return this.#overflowed !== null && this.#overflowed < this.headings.length;
  }

  #filled({ cells }: TableRow, enough = Number.POSITIVE_INFINITY): number {
    let filled = 0;
    for (const cell of cells) if (cellText(cell) !== '' && ++filled >= enough) break;
    return filled;
  }

  #text({ cells }: TableRow): string {
    return cells.map(cellText).find(text => text !== '') ?? '';
  }

  #said(row: TableRow, not: string): TableRow {
    return { ...row, not, ...(this.#sheet !== undefined && { sheet: this.#sheet }) };
  }

  #release(isAboveHeadings: boolean, into: TableRow[]): void {
    const row = this.#held;
    this.#held = null;
    if (!row) return;
    if (isAboveHeadings || isRemark(this.#text(row))) into.push(this.#said(row, 'a title'));
    else if (this.#inSections) {
      this.section ??= this.#column('section');
      this.#sectionName = this.#text(row);
      into.push(this.#said(row, 'a sub-heading'));
    } else this.#place(row, into);
  }

  /** Without headings, lines of one text above wider ones are titles; returns how many there are. */
  #titlesOf(head: TableRow[], into: TableRow[]): number {
    if (this.#parts.length === 0) return 0;
    const wide = head.findIndex(row => this.#filled(row, 2) > 1);
    const body = wide >= 0 ? wide : head.findIndex(row => !isTitle(this.#text(row)));
    const titles = body < 0 ? head.length : body;
    for (const row of head.slice(0, titles)) into.push(this.#said(row, 'a title'));
    return titles;
  }

  /** Which of the first filled lines is the headings; -1 where none is. */
  findHeadings(all: TableRow[]): number {
    const head = all.slice(0, headLines);
    let best = -1;
    let most = 0;
    head.forEach((row, index) => {
      const score = this.#reader.score(row.cells);
      if (score < 1 || score <= most || (score < 2 && score < this.#filled(row) / 3)) return;
      // Headings that the owner has mapped do not make a title of those that stand above them.
      const isBelow =
        this.#reader.hasMapped(row.cells) && this.#reader.isHeadings(head[best]?.cells ?? [], '');
      if (!isBelow) [best, most] = [index, score];
    });
    if (best >= 0) return best;
    const first = head.findIndex(row => this.#filled(row) > 1);
    return first >= 0 && isUnknownHeadings(head.slice(first), this.#reader.colours) ? first : -1;
  }

  /**
   * True for a line of words alone, one of which (or all of it) is a heading that the owner has mapped and
   * the list had not yet.
   */
  #isAwaited(row: TableRow): boolean {
    if (this.#awaited.size === 0) return false;
    const texts = row.cells.map(cellText).filter(text => text !== '');
    return (
      texts.length > 0 &&
      texts.some(text => this.#awaited.has(plainWord(text))) &&
      texts.every(text => /\p{L}|^#$/u.test(text))
    );
  }

  #openBlock(row: TableRow, into: TableRow[]): void {
    const texts = row.cells.map(cellText);
    this.#first = texts.find(text => text !== '') ?? '';
    this.#blockLine = row.line;
    if (this.#isFirst) {
      this.headingLine = row.line;
      this.#awaited = this.#reader.mappedBeside(texts);
    }
    this.#parts = this.#partsOf(texts).map(([start, end]) => ({
      start,
      places: this.#placesOf(texts.slice(start, end), start),
    }));
    this.#isFirst = false;
    this.#settle();
    this.#sectionName = null;
    this.#inSections = this.#isWide && this.#reader.leaveCarsToSections(row.cells);
    into.push(this.#said(row, 'headings'));
  }

  #openNameless(head: TableRow[]): void {
    this.#blockLine = 0;
    if (this.#isFirst) this.#awaited = this.#reader.mappedBeside([]);
    this.#isFirst = false;
    const width = Math.max(0, ...head.map(({ cells }) => cells.length));
    const places = Array.from({ length: width }, (_, index) => {
      const place = this.#column(`column ${index + 1}`);
      this.nameless.add(place);
      return place;
    });
    this.#parts = [{ start: 0, places }];
    this.#settle();
  }

  #settle(): void {
    const [only, another] = this.#parts;
    this.#isWide = !another && (only?.places.length ?? 0) > 1;
    this.#isStraight = !another && only?.start === 0 && only.places.every((place, index) => place === index);
  }

  /** Where the headings say one list twice, side by side, each of them apart; else all of them together. */
  #partsOf(texts: string[]): [number, number][] {
    const first = texts.findIndex(text => text !== '' && this.#reader.weight(text) >= 1);
    if (first < 0) return [[0, texts.length]];
    const word = plainWord(texts[first] ?? '');
    const starts = texts.flatMap((text, index) => (plainWord(text) === word ? [index] : []));
    const known = new Set(texts.slice(first, starts[1]).map(plainWord));
    const isRepeated = starts.every(
      (start, index) =>
        texts.slice(start, starts[index + 1]).filter(text => text !== '' && known.has(plainWord(text)))
          .length >= 2,
    );
    if (starts.length < 2 || !isRepeated) return [[0, texts.length]];
    return starts.map((start, index) => [index === 0 ? 0 : start, starts[index + 1] ?? texts.length]);
  }

  /**
   * The columns of a block's headings; one that stands twice in it is told apart by "(2)", an empty
   * one by its place.
   */
  #placesOf(texts: string[], start: number): number[] {
    const times = new Map<string, number>();
    const taken = new Set<number>();
    return texts.map((text, index) => {
      const same = this.#sameMeaning(text);
      if (same !== undefined && !taken.has(same)) {
        this.likeOthers.add(plainWord(text));
        taken.add(same);
        return same;
      }
      const own = text || `column ${start + index + 1}`;
      const key = own.toLowerCase();
      const count = (times.get(key) ?? 0) + 1;
      times.set(key, count);
      if (count === 1) {
        const place = this.#column(own);
        taken.add(place);
        return place;
      }
      const told = `${own} (${count})`;
      if (!this.#byKey.has(told.toLowerCase()))
        this.#warnings.push(
          `The heading "${own}" appears more than once; the first is read, this one is called "${told}".`,
        );
      return this.#column(told);
    });
  }

  /** Another heading of an earlier block that means the same, such as "Model" where that had "Car". */
  #sameMeaning(text: string): number | undefined {
    if (text === '' || this.#byKey.has(text.toLowerCase())) return undefined;
    const meaning = this.#reader.meaning(text);
    if (meaning === null) return undefined;
    const place = this.#byMeaning.get(meaning);
    if (place === undefined) this.#byMeaning.set(meaning, this.headings.length);
    return place;
  }

  #column(heading: string): number {
    const key = heading.toLowerCase();
    const known = this.#byKey.get(key);
    if (known !== undefined) return known;
    const place = this.headings.length;
    this.headings.push(heading);
    this.#byKey.set(key, place);
    return place;
  }

  #isTotal({ cells }: TableRow): boolean {
    return isTotalsRow(cells.map(cellText).filter(text => text !== ''));
  }

  #belowHeadings(merged: Merged): Merged {
    return new Map([...merged].filter(([, { from }]) => from > this.#blockLine));
  }

  #place(row: TableRow, into: TableRow[]): void {
    if (this.#sheet !== undefined) row.sheet = this.#sheet;
    if (row.merged) row.merged = this.#belowHeadings(row.merged);
    const [first] = this.#parts;
    const { section } = this;
    if (
      this.#sectionName !== null &&
      section !== null &&
      row.cells.length <= section &&
      !this.#isTotal(row)
    ) {
      const cells = [...row.cells];
      while (cells.length < section) cells.push(null);
      into.push({ ...row, cells: [...cells, this.#sectionName] });
      return;
    }
    if (!first) into.push(this.#said(row, 'not a list'));
    else if (this.#isStraight && row.cells.length <= first.places.length) into.push(row);
    else
      this.#parts.forEach((part, index) => {
        const width = part.places.length;
        const isLast = index === this.#parts.length - 1;
        const own = row.cells.slice(part.start, isLast ? undefined : part.start + width);
        if (own.every(cell => cellText(cell) === '')) return;
        // What stands beyond the last heading stays beyond all that there are.
        const cells: TableRow['cells'] = Array(this.headings.length).fill(null);
        for (let at = 0; at < Math.min(own.length, width); at++)
          cells[part.places[at] ?? 0] = own[at] ?? null;
        const beyond = own.slice(width);
        if (beyond.some(cell => cellText(cell) !== '')) {
          cells.push(...beyond);
          this.#overflowed ??= this.headings.length;
        }
        into.push({ ...row, cells, ...(row.merged && { merged: placedIn(part, row.merged) }) });
      });
  }
}

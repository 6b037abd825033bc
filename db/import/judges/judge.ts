import { type GradeScale, isOwnGrade } from '../../../valuation/reading/grade-scale.ts';
import type { Cell, Reading } from '../../../valuation/reading/reading.ts';
import { readGrade } from '../../../valuation/reading/words.ts';
import type { HeardText, UnreadText } from '../../records/unread.ts';
import { cellText } from '../files/cell-text.ts';
import type { Mapping } from '../mapping.ts';
import type { TableRow } from '../types.ts';
import { isUnknown, saysSomething } from './says-something.ts';
import { isTotalsRow } from './totals.ts';
import { unevenRow } from './uneven-row.ts';
import type { WordBook } from './word-book.ts';

/**
 * What becomes of a row. An accepted one brings the step that writes it, to be taken inside
 * the import's action.
 */
export type Judged =
  | { outcome: 'accepted'; notes: string[]; unidentified: boolean; write: () => void }
  | { outcome: 'duplicate'; note: string }
  | { outcome: 'rejected'; column: string | null; reason: string; not: string | null };

/** Matches of text with the reference that are remembered at most, so that memory stays bounded. */
export const mostMatches = 20_000;

/** Judges the rows of one file in order; it remembers those it accepted, to know what stands twice. */
export type Judge = (row: RowReader, line: number) => Judged;

/** A row with the text of each of its cells, taken once. */
export interface ReadRow extends TableRow {
  texts: string[];
}

/** The row with its texts, or null where it is blank. */
export const readRow = (row: TableRow): ReadRow | null => {
  let isText = true;
  let isFilled = false;
  const { cells } = row;
  for (const cell of cells) {
    const text = cellText(cell);
    if (text !== cell) isText = false;
    if (text !== '') isFilled = true;
  }
  // The cells of a CSV file mostly are their own texts.
  if (!isFilled) return null;
  const read = row as ReadRow;
  read.texts = isText ? (cells as string[]) : cells.map(cellText);
  return read;
};

/**
 * How the cells of a file are read: its columns, what its owner's words mean, and the scale of its grades.
 */
export interface Habits {
  mapping: Mapping;
  words: WordBook;
  /**
   * Null is C1 to C10; `asked` where the figures may be of another scale, so that they wait for an answer.
   */
  scale: GradeScale | 'asked' | null;
}

/** A cell, or part of one, that was not understood. */
export interface UnreadCell {
  /** Our column for which it was read; '' where it is in none. */
  field: string;
  /** As the file names its column. */
  column: string;
  text: string;
  reason: string;
  holds?: UnreadText['holds'];
  /** An answer would take the row, which is refused without it. */
  asks?: true;
}

/** As its record keeps it. */
export const keptUnread = ({ column, text, field, holds }: UnreadCell): UnreadText => ({
  column,
  text,
  field,
  ...(holds && { holds }),
});

const longestUnread = 20_000;

const had = new WeakMap<Mapping, Map<readonly string[], boolean>>();

/** True where a file has one of these columns; found once for each list of them. */
const hasAny = (mapping: Mapping, columns: readonly string[]): boolean => {
  const ofMapping = had.get(mapping) ?? new Map<readonly string[], boolean>();
  if (ofMapping.size === 0) had.set(mapping, ofMapping);
  const known = ofMapping.get(columns);
  if (known !== undefined) return known;
  const has = columns.some(column => mapping.places.has(column));
  ofMapping.set(columns, has);
  return has;
};

/**
 * Reads one row of the file by our columns, and keeps what was understood of it, what was not, and what
 * there is to say.
 */
export class RowReader {
  /**
   * By our columns, in plain values: amounts in whole units, days as ISO dates, parts with
   * commas between them.
   */
  readonly fields: Record<string, unknown> = {};
  readonly unread: UnreadCell[] = [];
  /** What the owner's words said of its cells, or of parts of them. */
  readonly heard: HeardText[] = [];
  readonly notes: string[] = [];
  readonly habits: Habits;
  readonly #row: ReadRow;
  /** What the owner's words give, by our columns. */
  #given: Map<string, string> | null = null;
  /** Places of cells that words have spoken for. */
  #spoken: Set<number> | null = null;
  /** A description says which casting it is, and no column of its own. */
  isDescribed = false;
  #refusal: { column: string; reason: string } | null = null;

  constructor(habits: Habits, row: ReadRow) {
    this.habits = habits;
    this.#row = row;
    if (!habits.words.isEmpty) this.#hearWords();
  }

  /**
   * Takes each cell that the owner's words speak for as what they mean: of its own field, of another
   * one, or of none.
   */
  #hearWords(): void {
    const { mapping, words } = this.habits;
    const spoken: { index: number; field: string; meaning: string; heard: HeardText }[] = [];
    for (const { index, heading, ours } of mapping.columns) {
      const text = this.#row.texts[index] ?? '';
      const said = words.of(heading, text);
      if (said.length === 0) continue;
      this.#spoken ??= new Set();
      this.#spoken.add(index);
      const heard: HeardText = {
        column: heading,
        text: text.slice(0, longestUnread),
        field: ours ?? '',
        gave: {},
      };
      this.heard.push(heard);
      for (const { field, meaning } of said)
        if (field !== 'nothing') spoken.push({ index, field, meaning, heard });
    }
    for (const { index, field, meaning, heard } of spoken) {
      const own = mapping.places.get(field);
      const hasOwn = own !== undefined && own !== index && !this.#spoken?.has(own) && this.#row.texts[own];
      // What stands in a field's own column goes before what another column says of it.
      if (hasOwn || (this.#given?.has(field) && own !== index)) {
        this.leave('', index, 'another column says it, too');
        if (Object.keys(heard.gave).length === 0) this.heard.splice(this.heard.indexOf(heard), 1);
      } else {
        this.#gave(field, meaning);
        heard.gave[field] = meaning;
      }
    }
  }

  #gave(column: string, text: string): void {
    this.#given ??= new Map();
    this.#given.set(column, text);
  }

  /** How many cells are filled. */
  get filled(): number {
    let filled = 0;
    for (const text of this.#row.texts) if (text !== '') filled++;
    return filled;
  }

  has(column: string): boolean {
    return this.text(column) !== '';
  }

  /** True where a column says in which state the finish is. */
  get tellsFinish(): boolean {
    return this.has('finish_state') || this.has('is_original_paint');
  }

  /**
   * False where the row cannot say anything of these columns: its file has none of them, and neither words
   * nor another cell gave it anything. `columns` is one list for all rows.
   */
  mayHave(columns: readonly string[]): boolean {
    return this.#given !== null || hasAny(this.habits.mapping, columns);
  }

  /** The text of a column: what the owner's words say of it, or what stands there, remarks in several places. */
  text(column: string): string {
    const given = this.#given?.get(column);
    if (given !== undefined) return given;
    const place = this.habits.mapping.places.get(column);
    if (column !== 'notes') {
      const text = place === undefined ? '' : this.#textAt(place);
      return text !== '' && isUnknown(text) ? '' : text;
    }
    const texts = this.#placesOf(column).map(one => this.#textAt(one));
    return texts.filter(Boolean).join('\n');
  }

  /** What stands in a cell that no word has spoken for; '' where that says nothing. */
  #textAt(place: number): string {
    const text = this.#row.texts[place];
    return text && !this.#spoken?.has(place) && saysSomething(text) ? text : '';
  }

  /** Where the file has one of our columns: in one place, or remarks in several. */
  #placesOf(column: string): number[] {
    const { places, moreNotes } = this.habits.mapping;
    const place = places.get(column);
    if (place === undefined) return [];
    return column === 'notes' ? [place, ...moreNotes] : [place];
  }

  cell(column: string): Cell {
    const given = this.#given?.get(column);
    if (given !== undefined) return given;
    const place = this.habits.mapping.places.get(column);
    if (place === undefined || this.#spoken?.has(place)) return null;
    const raw = this.#row.cells[place] ?? null;
    return typeof raw === 'string' ? (this.#row.texts[place] ?? '') : raw;
  }

  /** Reads a column's cell as this text from here on. */
  replace(column: string, text: string): void {
    this.#gave(column, text);
  }

  /**
   * What another cell says of a field; where its own column says otherwise, that stays and the other
   * is not understood.
   */
  give(field: string, value: string, from: string): void {
    const own = this.text(field);
    if (own === '') this.#gave(field, value);
    else if (field === 'grade' && this.#waitsForScale(own)) {
      // A grade from C1 to C10 is certain where what the column's own means is still to be said.
      this.miss(field, `another column says "${value}"`);
      this.#gave(field, value);
    } else if (own.toLowerCase() !== value.toLowerCase())
      this.miss(from, `another column says "${own}"`, value);
  }

  #waitsForScale(grade: string): boolean {
    const { scale } = this.habits;
    return scale === 'asked' ? !isOwnGrade(grade) : scale === null && !readGrade(grade).ok;
  }

  /** True where a word of the owner's says what the column holds. */
  isSaid(column: string): boolean {
    return this.#given?.has(column) ?? false;
  }

  /** The text as it stands in the file, whatever words say of it. */
  written(column: string): string {
    return this.#placesOf(column)
      .map(place => this.#row.texts[place] ?? '')
      .filter(Boolean)
      .join('\n');
  }

  /** The heading of one of our columns, or the column's own name where the file does not have it. */
  heading(column: string): string {
    const place = this.habits.mapping.places.get(column);
    return place === undefined ? column : (this.habits.mapping.columns[place]?.heading ?? column);
  }

  /** What the cell says, null where it is blank or was not understood. */
  read<T>(column: string, read: (cell: Cell) => Reading<T>): T | null {
    if (!this.has(column)) return null;
    const reading = read(this.cell(column));
    if (!reading.ok) {
      this.miss(column, reading.reason);
      return null;
    }
    if (reading.note) this.notes.push(reading.note);
    return reading.value;
  }

  /** As `read`, and kept among what was understood. */
  take<T>(column: string, read: (cell: Cell) => Reading<T>): T | null {
    const value = this.read(column, read);
    if (value !== null) this.fields[column] = value;
    return value;
  }

  /** A text cell of at most `longest` characters. */
  takeText(column: string, longest = 200): string {
    const text = this.text(column);
    if (text.length > longest) {
      this.miss(column, `the text has ${text.length} characters; ${longest} are the most here`);
      return '';
    }
    if (text) this.fields[column] = text;
    return text;
  }

  /** Keeps a column's cell, or a part of it, as something that was not understood; `field` is what it is asked about. */
  miss(
    column: string,
    reason: string,
    text = this.written(column) || this.text(column),
    field = column,
  ): void {
    this.unread.push({
      field,
      column: this.heading(column),
      text: text.slice(0, longestUnread),
      reason,
    });
  }

  /**
   * Keeps a column's cell that is understood by itself, but of no use without another one: no
   * word can settle it.
   */
  hold(column: string, reason: string, value?: string): void {
    this.miss(column, reason, undefined, '');
    const last = this.unread.at(-1);
    if (last && value !== undefined) last.holds = { field: column, value };
  }

  /** Notes what a word of the owner's said of a part of a column's cell. */
  hear(column: string, text: string, gave: Record<string, string>): void {
    this.heard.push({ column: this.heading(column), text, field: '', gave });
  }

  /** Notes a grade that was read on the scale which the owner has said for its column. */
  hearScale(grade: number): void {
    const text = this.written('grade').slice(0, longestUnread);
    const gave = { grade: String(grade) };
    this.heard.push({ column: this.heading('grade'), text, field: 'grade', gave, byScale: true });
  }

  /** Keeps the cell at a place as something that was not understood. */
  leave(field: string, index: number, reason: string): void {
    const column = this.habits.mapping.columns[index]?.heading ?? `column ${index + 1}`;
    const text = (this.#row.texts[index] ?? '').slice(0, longestUnread);
    if (text) this.unread.push({ field, column, text, reason });
  }

  /** The row cannot be taken until its owner says what a cell means. */
  ask(column: string, reason: string): void {
    this.miss(column, reason);
    const last = this.unread.at(-1);
    if (last) last.asks = true;
    this.refuse(column, reason);
  }

  /** The row cannot be taken: it says nothing of what every record must have. The first reason counts. */
  refuse(column: string, reason: string): void {
    this.#refusal ??= { column, reason };
  }

  rejected(not: string | null = null): Judged | null {
    return this.#refusal && { outcome: 'rejected', ...this.#refusal, not };
  }
}

const rejected = (reason: string, not: string | null = null): Judged => ({
  outcome: 'rejected',
  column: null,
  reason,
  not,
});

/** Judges one row: its shape first, then what it says. Their heading names the column of a rejected one. */
export const judgeRow = (
  judge: Judge,
  habits: Habits,
  row: ReadRow,
): { judged: Judged; reader: RowReader } => {
  const filled = row.texts.filter(text => text !== '');
  if (row.fault) return { judged: rejected(row.fault), reader: new RowReader(habits, row) };
  if (isTotalsRow(filled))
    return {
      judged: rejected('this looks like a line of totals, not a record', 'a total'),
      reader: new RowReader(habits, row),
    };
  const width = habits.mapping.columns.length;
  const isUneven = row.texts.length > width && row.texts.slice(width).some(Boolean);
  const even = isUneven ? unevenRow(habits, row) : { habits, row, left: [] };
  const reader = new RowReader(even.habits, even.row);
  for (const place of even.left)
    reader.leave(
      '',
      place,
      'the row has more cells than there are headings: which column this belongs to is not known',
    );
  const judged = judge(reader, row.line);
  if (judged.outcome === 'rejected' && judged.column !== null) judged.column = reader.heading(judged.column);
  return { judged, reader };
};

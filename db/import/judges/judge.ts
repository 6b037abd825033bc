import type { Cell, Reading } from '../../../valuation/reading/reading.ts';
import { cellText } from '../files/cell-text.ts';
import type { Mapping } from '../mapping.ts';
import type { ImportRowView, TableRow } from '../types.ts';
import { isTotalsRow } from './totals.ts';

/** What becomes of a row. An accepted one brings the step that writes it, to be taken inside the import's action. */
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
  const texts = row.cells.map(cellText);
  return texts.some(text => text !== '') ? { ...row, texts } : null;
};

/** Reads one row of the file by our columns, and keeps what was understood of it, what was not, and what there is to say. */
export class RowReader {
  /** By our columns, as the row is taken. */
  readonly fields: Record<string, unknown> = {};
  /** Cells that were not understood, by our columns, the first first; one that is `left` is saved as written and rejects nothing. */
  readonly unread: { column: string; text: string; reason: string; left?: true }[] = [];
  readonly notes: string[] = [];
  readonly #places: Map<string, number>;
  readonly #row: ReadRow;
  constructor({ places }: Mapping, row: ReadRow) {
    this.#places = places;
    this.#row = row;
  }

  cell(column: string): Cell {
    const place = this.#places.get(column);
    return place === undefined ? null : (this.#row.cells[place] ?? null);
  }

  text(column: string): string {
    const place = this.#places.get(column);
    return place === undefined ? '' : (this.#row.texts[place] ?? '');
  }

  /** What the cell says, null where it is blank or was not understood. */
  take<T>(column: string, read: (cell: Cell) => Reading<T>): T | null {
    const text = this.text(column);
    if (text === '') return null;
    const raw = this.cell(column);
    const reading = read(typeof raw === 'string' ? text : raw);
    if (!reading.ok) {
      this.refuse(column, reading.reason);
      return null;
    }
    if (reading.note) this.notes.push(reading.note);
    this.fields[column] = reading.value;
    return reading.value;
  }

  /** As `take`, but a cell that is not understood (of at most 200 characters) is left as it was written: the row is taken without it. */
  takeOrLeave<T>(column: string, read: (cell: Cell) => Reading<T>): T | null {
    const text = this.text(column);
    const before = this.unread.length;
    const value = this.take(column, read);
    const cell = this.unread[before];
    if (cell && text.length <= 200) {
      cell.left = true;
      this.notes.push(`${cell.reason}; the cell is saved as written`);
    }
    return value;
  }

  /** The cells that are saved as they were written. */
  left(): { column: string; text: string }[] {
    return this.unread.filter(cell => cell.left).map(({ column, text }) => ({ column, text }));
  }

  /** A text cell of at most `longest` characters. */
  takeText(column: string, longest = 200): string {
    const text = this.text(column);
    if (text.length > longest) {
      this.refuse(column, `the text has ${text.length} characters; ${longest} are the most here`);
      return '';
    }
    if (text) this.fields[column] = text;
    return text;
  }

  refuse(column: string, reason: string): void {
    this.unread.push({ column, text: this.text(column), reason });
  }

  /** The first cell that was not understood and cannot be left as written rejects the row; null where there is none. */
  rejected(): Judged | null {
    const first = this.unread.find(cell => !cell.left);
    return first ? { outcome: 'rejected', column: first.column, reason: first.reason, not: null } : null;
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
  mapping: Mapping,
  row: ReadRow,
): { judged: Judged; reader: RowReader } => {
  const reader = new RowReader(mapping, row);
  if (row.fault) return { judged: rejected(row.fault), reader };
  const filled = row.texts.filter(text => text !== '');
  if (isTotalsRow(filled))
    return { judged: rejected('this looks like a line of totals, not a record', 'a total'), reader };
  if (row.texts.length > mapping.columns.length && row.texts.slice(mapping.columns.length).some(Boolean))
    return {
      judged: rejected(
        `the row has ${row.cells.length} cells, the headings ${mapping.columns.length}; is a separator inside a value not quoted?`,
      ),
      reader,
    };
  const judged = judge(reader, row.line);
  if (judged.outcome === 'rejected' && judged.column !== null)
    judged.column = headingOf(mapping, judged.column);
  return { judged, reader };
};

const headingOf = (mapping: Mapping, ours: string): string => {
  const place = mapping.places.get(ours);
  return place === undefined ? ours : (mapping.columns[place]?.heading ?? ours);
};

/** A judged row as the preview shows it. */
export const rowView = (
  mapping: Mapping,
  row: ReadRow,
  { judged, reader }: { judged: Judged; reader: RowReader },
  sheet: string | null,
): ImportRowView => ({
  line: row.line,
  sheet,
  outcome: judged.outcome,
  column: judged.outcome === 'rejected' ? judged.column : null,
  reason: judged.outcome === 'rejected' ? judged.reason : null,
  not: judged.outcome === 'rejected' ? judged.not : null,
  note:
    judged.outcome === 'accepted'
      ? judged.notes.join('; ') || null
      : judged.outcome === 'duplicate'
        ? judged.note
        : null,
  fields: reader.fields,
  unread: reader.unread.map(({ column, text }) => ({
    column: headingOf(mapping, column),
    text: text.slice(0, 200),
  })),
  values: Object.fromEntries(
    [...mapping.places.keys()].map(column => [column, reader.text(column).slice(0, 200)]),
  ),
});

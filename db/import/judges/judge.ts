import type { Parsed } from '../cells/parse-date.ts';
import { cellText } from '../files/table.ts';
import type { Mapping } from '../mapping.ts';
import type { Cell, ImportRowView, TableRow } from '../types.ts';

/** A row of the file by our columns; blank and missing cells are null. */
export interface Values {
  cell(column: string): Cell;
  text(column: string): string;
}

/** What becomes of a row. An accepted one brings the step that writes it, to be taken inside the import's action. */
export type Judged =
  | { outcome: 'accepted'; note: string | null; unidentified: boolean; write: () => void }
  | { outcome: 'duplicate'; note: string }
  | { outcome: 'rejected'; column: string | null; reason: string };

/** Matches of text with the reference that are remembered at most, so that memory stays bounded. */
export const mostMatches = 20_000;

/** Judges the rows of one file in order; it remembers those it accepted, to know what stands twice. */
export type Judge = (values: Values, line: number) => Judged;

/** Raised by `take` inside a judge; becomes a rejected row with its column. */
export class BadCell extends Error {
  column: string | null;
  constructor(column: string | null, reason: string) {
    super(reason);
    this.column = column;
  }
}

/** The parsed cell, null where it is blank; a cell that cannot be read rejects the row. */
export const take = <T>(values: Values, column: string, parse: (cell: Cell) => Parsed<T>): T | null => {
  if (values.text(column) === '') return null;
  const raw = values.cell(column);
  const result = parse(typeof raw === 'string' ? values.text(column) : raw);
  if (!result.ok) throw new BadCell(column, result.reason);
  return result.value;
};

/** A text cell of at most `longest` characters. */
export const takeText = (values: Values, column: string, longest = 200): string => {
  const text = values.text(column);
  if (text.length > longest)
    throw new BadCell(column, `the text has ${text.length} characters; ${longest} are the most here`);
  return text;
};

/** A row with the text of each of its cells, taken once. */
export interface ReadRow extends TableRow {
  texts: string[];
}

/** The row with its texts, or null where it is blank. */
export const readRow = (row: TableRow): ReadRow | null => {
  const texts = row.cells.map(cellText);
  return texts.some(text => text !== '') ? { ...row, texts } : null;
};

/** Reads rows of the file through the mapping. */
export const valuesOf = ({ places }: Mapping, { cells, texts }: ReadRow): Values => ({
  cell: column => {
    const place = places.get(column);
    return place === undefined ? null : (cells[place] ?? null);
  },
  text: column => {
    const place = places.get(column);
    return place === undefined ? '' : (texts[place] ?? '');
  },
});

const totals =
  /^(grand |sub)?-? ?(totals?|sum|summe|gesamt|subtotals?)( (of|for|cost|price|paid|cars?)( .*)?)?[:=]?$/i;

/** Judges one row: its shape first, then what it says. Their heading names the column of a rejected one. */
export const judgeRow = (judge: Judge, mapping: Mapping, row: ReadRow): Judged => {
  const filled = row.texts.filter(text => text !== '');
  if (filled.length <= 4 && totals.test(filled[0] ?? ''))
    return { outcome: 'rejected', column: null, reason: 'this looks like a line of totals, not a record' };
  if (row.texts.length > mapping.columns.length && row.texts.slice(mapping.columns.length).some(Boolean))
    return {
      outcome: 'rejected',
      column: null,
      reason: `the row has ${row.cells.length} cells, the headings ${mapping.columns.length}; is a separator inside a value not quoted?`,
    };
  try {
    return judge(valuesOf(mapping, row), row.line);
  } catch (error) {
    if (!(error instanceof BadCell)) throw error;
    const place = error.column === null ? undefined : mapping.places.get(error.column);
    return {
      outcome: 'rejected',
      column: place === undefined ? error.column : (mapping.columns[place]?.heading ?? error.column),
      reason: error.message,
    };
  }
};

/** A judged row as the preview shows it. */
export const rowView = (mapping: Mapping, row: ReadRow, judged: Judged): ImportRowView => {
  const values = valuesOf(mapping, row);
  return {
    line: row.line,
    outcome: judged.outcome,
    column: judged.outcome === 'rejected' ? judged.column : null,
    reason: judged.outcome === 'rejected' ? judged.reason : null,
    note: judged.outcome === 'rejected' ? null : judged.note,
    values: Object.fromEntries(
      [...mapping.places.keys()].map(column => [column, values.text(column).slice(0, 200)]),
    ),
  };
};

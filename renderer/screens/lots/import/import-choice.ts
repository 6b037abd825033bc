import type {
  Encoding,
  ImportKind,
  ImportPreview,
  LedgerKind,
  LotChoice,
  Separator,
} from '../../../../electron/api/views.ts';
import type { DateOrder } from '../../../../valuation/reading/date.ts';
import type { DecimalSign } from '../../../../valuation/reading/money.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { dateText } from '../../../components/format.ts';
import { readerWords } from '../../../components/words.ts';

/** A list handed over: a file, or a text that was pasted. */
export interface Source {
  file: File;
  /** The text, where it was pasted. */
  pasted: string | null;
  /** The instant of choosing: tells one choice from the next, those of an earlier visit included. */
  turn: number;
}

/** How a file is to be read, as far as its owner has said so; the rest is found out from the file. */
export interface ImportChoice {
  as: ImportKind;
  sheet?: string;
  encoding?: Encoding;
  separator?: Separator;
  /** The line of the headings; 0 where there are none. */
  headingLine?: number;
  /** How the cars become lots; left out, by purchase. */
  lots?: LotChoice;
  map: Record<string, string | null>;
  decimal: Record<string, DecimalSign>;
  dateOrder: Record<string, DateOrder>;
  currency?: Currency;
  /** By heading, of amounts that name none. */
  bareCurrency?: Record<string, Currency>;
  /** What holds for all sale records whose rows do not say it. */
  ofAll?: { soldOn?: IsoDate; source?: string };
  addReference: boolean;
  /** The lot that the cars go into; null for a new one. */
  lotId: number | null;
}

export const kindWords: Record<ImportKind, { title: string; rows: string; row: string }> = {
  lot: { title: 'Cars of a lot', rows: 'cars', row: 'car' },
  sales: { title: 'Sale records', rows: 'sale records', row: 'sale record' },
  reference: { title: 'Reference', rows: 'variations', row: 'variation' },
};

export const isKind = (text: string | null): text is ImportKind =>
  text === 'lot' || text === 'sales' || text === 'reference';

/**
 * What each list of the books holds; its rows name cars by their inventory numbers, but for those of lots.
 */
export const bookWords: Record<LedgerKind, { title: string; rows: string; row: string; about: string }> = {
  lots: {
    title: 'Lots',
    rows: 'lots',
    row: 'lot',
    about: 'One row for each lot: where and when it was bought, and what it cost, without its cars.',
  },
  expenses: {
    title: 'Expenses',
    rows: 'expenses',
    row: 'expense',
    about: 'One row for each sum spent on a car, such as a repair or a new axle.',
  },
  disposals: {
    title: 'Cars sold',
    rows: 'sales of cars',
    row: 'sale of a car',
    about: 'One row for each car of yours that was sold; it is marked as sold.',
  },
  decisions: {
    title: 'Decisions',
    rows: 'decisions',
    row: 'decision',
    about: 'One row for each car that was decided on: what was chosen, when and why.',
  },
  jobs: {
    title: 'Jobs',
    rows: 'rows of jobs',
    row: 'row of a job',
    about:
      'One row for each step of the work on a car, with what it took and used, and what was finished. A job is imported whole or not at all.',
  },
};

/** Every list that can be imported. */
export type ListKind = ImportKind | LedgerKind;

export const isBook = (text: string | null): text is LedgerKind => text !== null && text in bookWords;

export const choiceFor = (as: ImportKind, lotId: number | null): ImportChoice => ({
  as,
  map: {},
  decimal: {},
  dateOrder: {},
  addReference: false,
  lotId,
});

type Columns = ImportPreview['columns'];

/**
 * Maps a heading to one of our columns, or to none. A column of ours that another heading gives by choice is
 * let go there; one that it gives by recognition gives way by itself.
 */
export const mapHeading = (
  choice: ImportChoice,
  columns: Columns,
  heading: string,
  ours: string | null,
): ImportChoice => {
  const map = { ...choice.map, [heading]: ours };
  if (ours !== null)
    for (const column of columns)
      if (column.heading !== heading && column.how === 'chosen' && column.ours === ours)
        map[column.heading] = null;
  return { ...choice, map };
};

/** The new lot, as far as it says how the rows are read and which lots they make. */
export interface NewLot {
  name: string;
  currency: Currency;
}

/** What `imports.preview` takes of a choice, with the new lot where the cars go into none that is there. */
export const previewInput = (file: File, choice: ImportChoice, lot: NewLot | null = null) => {
  const { lotId, lots, ...options } = choice;
  if (options.as !== 'lot') return { file, ...options };
  if (lotId !== null) return { file, ...options, lotId };
  return { file, ...options, ...(lots && { lots }), ...(lot && lot.name !== '' && { lot }) };
};

/** "release_name" as it is read, "release name"; a heading of the file's own keeps its spelling. */
export const plainColumn = (name: string): string => name.replaceAll('_', ' ');

/** The same of one of our columns, "colour" as the reader writes it. */
export const columnWords = (name: string): string => readerWords().spell(plainColumn(name));

const quoted = (text: string): string => {
  // What a spreadsheet would take for a formula is made inert.
  const inert = /^[=+\-@\t]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
};

/** The rejected rows as CSV, to be put right in the file that they came from. */
export const rejectedCsv = (
  rejected: readonly { line: number; column: string | null; reason: string }[],
): string =>
  [
    'line,column,reason',
    ...rejected.map(({ line, column, reason }) => [String(line), column ?? '', reason].map(quoted).join(',')),
  ].join('\r\n');

/** A name for the new lot, from the file's own: "barn_tin-2026.csv" is "barn tin 2026". */
export const lotNameOf = (fileName: string): string =>
  fileName
    .replace(/\.[^.]+$/, '')
    .replace(/[_-]+/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** A name for the new lot of a list that has none. */
export const pastedLotName = (today: IsoDate): string => `Pasted on ${dateText(today)}`;

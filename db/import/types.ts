import type { DateOrder } from '../../valuation/reading/date.ts';
import type { Encoding, Separator } from '../../valuation/reading/file-formats.ts';
import type { DecimalSign } from '../../valuation/reading/money.ts';
import type { Cell } from '../../valuation/reading/reading.ts';
import type { OwnWord } from '../../valuation/reading/sale-line/lexicon.ts';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import type { FormatKind } from '../../valuation/wording/file-words.ts';
import type { LotCost, LotRecord } from '../records/lots/lots.ts';

export const importKinds = ['lot', 'reference', 'sales'] as const;
export type ImportKind = (typeof importKinds)[number];

/** How the cars of a list become lots: those of one day and seller a lot of their own, or all of them one. */
export const lotChoices = ['by purchase', 'one'] as const;
export type LotChoice = (typeof lotChoices)[number];

export type { Cell, DateOrder, DecimalSign, Encoding, Separator };

/** How a file is to be read; what is left out is found out from the file and said in the preview. */
export interface SaidOfAll {
  soldOn?: IsoDate | undefined;
  source?: string | undefined;
}

export interface ImportOptions {
  as: ImportKind;
  sheet?: string | undefined;
  encoding?: Encoding | undefined;
  separator?: Separator | undefined;
  /** The line of the headings, of the first sheet that is read; 0 where the file has none. */
  headingLine?: number | undefined;
  /** Their heading → our column; null leaves a column out. */
  map: Record<string, string | null>;
  /** By heading; `*` stands for all columns. */
  decimal: Record<string, DecimalSign>;
  dateOrder: Record<string, DateOrder>;
  /** Of amounts that name none. */
  currency?: Currency | undefined;
  /** The same by heading, where a column leaves open which it is; `*` stands for all columns. */
  bareCurrency?: Record<string, Currency> | undefined;
  /** Of sale records: what holds for all rows that do not say it themselves, as in the list of one auction. */
  ofAll?: SaidOfAll | undefined;
  /** What texts mean, beside the words that the collection has. */
  words?: OwnWord[] | undefined;
}

export interface RunOptions extends ImportOptions {
  dryRun: boolean;
  /** Add castings and variations that the reference lacks, from the rows of a sales file. */
  addReference: boolean;
  /** Gives every row that is not blank with what was understood of it. */
  rows?: boolean | undefined;
  lotId?: number | undefined;
  lot?: (Omit<LotRecord, 'id'> & { costs: LotCost[] }) | undefined;
  /** Left out, by purchase; in a lot that is there already, all stay in it. */
  lots?: LotChoice | undefined;
}

/** One row of the file with the line on which it begins, counted from 1 as an editor shows it. */
export interface TableRow {
  line: number;
  cells: Cell[];
  /** Why the row cannot be what its writer meant, such as a quotation mark that swallowed other rows. */
  fault?: string;
  /** By column, what a cell of a line above (`from`) that is merged down to this row holds. */
  merged?: Map<number, { cell: Cell; from: number; to: number }>;
  /** The sheet on which it stands, where the file has sheets. */
  sheet?: string;
  /** What the line is instead of a row of the list: "a title", "headings". */
  not?: string;
}

export interface ColumnView {
  index: number;
  /** As it stands; a heading that stands twice is told apart by "(2)". */
  heading: string;
  ours: string | null;
  /** Why it was so mapped. */
  how: 'same name' | 'recognised' | 'by its cells' | 'chosen' | 'not used';
  decimal: DecimalSign | null;
  dateOrder: DateOrder | null;
  /** The first values. */
  samples: string[];
}

/** How a column writes its amounts or its days, and from what that is known. */
export interface LearnedFormat {
  /** Their heading. */
  column: string;
  kind: FormatKind;
  value: DecimalSign | DateOrder | Currency;
  from: 'its cells' | 'its heading' | 'another column' | 'your answer';
  /** The other column's heading. */
  other?: string;
  /** How many cells show it, or are read so; and the first of them. */
  cells: number;
  examples: string[];
}

/**
 * What a file cannot tell by itself: answered for the column by `decimal`, `dateOrder` or `bareCurrency` of the
 * options.
 */
export interface FormatQuestion {
  /** Their heading. */
  column: string;
  kind: FormatKind;
  choices: (DecimalSign | DateOrder | Currency)[];
  /** How many cells can be read in more ways than one, and the first of them. */
  cells: number;
  examples: string[];
}

/** A lot that an import makes, or adds to. */
export interface PlannedLot {
  name: string;
  boughtOn: IsoDate | null;
  seller: string;
  currency: Currency;
  cars: number;
  /** How many of them have a price of their own, and what those come to. */
  priced: number;
  paid: Minor;
  /** Bought on one day from one seller; otherwise collected one by one. */
  isTogether: boolean;
}

/** How many cells of the rows that are taken were understood. */
export interface CellCounts {
  understood: number;
  /** Of which a part was not. */
  partly: number;
  unknown: number;
  /** In columns that are not read. */
  idle: number;
}

/** A line that may be the headings. */
export interface HeadingLine {
  line: number;
  cells: string[];
}

/** How a file is read as a table. */
export interface ReadAs {
  format: 'csv' | 'xlsx' | 'jsonl';
  /** Null in a spreadsheet, which has neither. */
  encoding: Encoding | null;
  /** Why it is taken to be that; null where it was chosen. */
  encodingBecause: string | null;
  separator: Separator | null;
  sheets: string[];
  sheet: string | null;
  /** The line of the first headings; 0 where the file has none. */
  headingLine: number;
  /** Other lines near the top of the first sheet that may be them. */
  headingLines: HeadingLine[];
}

/** What a file looks like before anything is taken in. */
export interface ImportPreview extends ReadAs {
  file: string;
  /** In the order of the file. */
  columns: ColumnView[];
  ourColumns: { name: string; required: boolean; help: string }[];
  rows: number;
  /** What becomes of the rows, as the file is mapped now. */
  counts: { accepted: number; rejected: number; duplicates: number; unidentified: number };
  cells: CellCounts;
  /**
   * The lots that the cars would make, as it is chosen now; and whether the file tells of more purchases than
   * one, so that there is a choice.
   */
  lots: PlannedLot[];
  hasPurchases: boolean;
  /** The first rows as they would be taken, and the first rejected ones. */
  sample: ImportRowView[];
  /** Castings that sale records name and the reference lacks. */
  missingCastings: string[];
  /** The distinct texts that were not understood, the most frequent first. */
  notUnderstood: NotUnderstood[];
  learned: LearnedFormat[];
  questions: FormatQuestion[];
  warnings: string[];
}

export interface ImportRowView {
  line: number;
  sheet: string | null;
  outcome: 'accepted' | 'rejected' | 'duplicate';
  /** What was understood of the row, by our columns. */
  fields: Record<string, unknown>;
  /** What was not, as it stands in the file. */
  unread: { column: string; text: string }[];
  /** What the row is instead of a record, such as "a total". */
  not: string | null;
  column: string | null;
  reason: string | null;
  values: Record<string, string>;
  note: string | null;
}

/**
 * A text that was not understood, in the form of a file of words, so that it can be filled in and given back.
 */
export interface NotUnderstood {
  /** As the file names it; `*` in `text` stands for all texts of the column. */
  column: string;
  text: string;
  /**
   * The field that it is most likely about, and a meaning where one is near; '' where people mean
   * the text differently.
   */
  field: string;
  meaning: string;
  count: number;
  /** The first hundred. */
  lines: number[];
}

export interface Rejection {
  line: number;
  column: string | null;
  reason: string;
}

export interface ImportResult {
  accepted: number;
  rejected: Rejection[];
  duplicates: number;
  duplicateLines: number[];
  unidentified: number;
  addedCastings: number;
  notUnderstood: NotUnderstood[];
  cells: CellCounts;
  /** Every row that is not blank, where that was asked for. */
  rows?: ImportRowView[];
  lot?: { id: number; name: string };
  /** All lots into which cars went, each with how many. */
  lots?: { id: number; name: string; cars: number }[];
  learned: LearnedFormat[];
  questions: FormatQuestion[];
  notes: string[];
}

/** A file that cannot be read as a table at all: says what is wrong with it and what to do. */
export class ImportFileError extends Error {
  override name = 'ImportFileError';
}

/** No column gives what every row must have; the columns can still be mapped by hand. */
export class MissingColumnError extends ImportFileError {}

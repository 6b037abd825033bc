/** What the procedures answer about imports, reports, assumptions and parts. */
import type { AssumptionSet, Currency, Minor } from '../../../valuation/index.ts';

export type ImportKind = 'lot' | 'reference' | 'sales';

/** What a file looks like before anything is taken in. */
export interface ImportPreview {
  file: string;
  format: 'csv' | 'xlsx';
  encoding: string;
  separator: string;
  sheets: string[];
  sheet: string | null;
  headingLine: number;
  /** Columns in file order: the heading as it stands, our column or null, why it was so mapped, the first values. */
  columns: {
    index: number;
    heading: string;
    ours: string | null;
    how: 'same name' | 'recognised' | 'chosen' | 'not used';
    decimal: ',' | '.' | null;
    dateOrder: 'ymd' | 'dmy' | 'mdy' | null;
    samples: string[];
  }[];
  ourColumns: { name: string; required: boolean; help: string }[];
  rows: number;
  /** What becomes of the rows, as the file is mapped now. */
  counts: { accepted: number; rejected: number; duplicates: number; unidentified: number };
  /** First rows as they would be taken, and the first rejected ones. */
  sample: ImportRowView[];
  /** Castings that sale records name and the reference lacks. */
  missingCastings: string[];
  warnings: string[];
}

export interface ImportRowView {
  line: number;
  outcome: 'accepted' | 'rejected' | 'duplicate';
  column: string | null;
  reason: string | null;
  values: Record<string, string>;
  note: string | null;
}

export interface ImportResult {
  accepted: number;
  rejected: { line: number; column: string | null; reason: string }[];
  duplicates: number;
  duplicateLines: number[];
  unidentified: number;
  addedCastings: number;
  lot?: { id: number; name: string };
  notes: string[];
}

/** Long work streams these; the last one carries the result. */
export type Progress<T> =
  | { type: 'progress'; done: number; total: number; stage: string }
  | { type: 'done'; result: T };

export interface ReportResult {
  fileName: string;
  mime: string;
  bytes: number;
  /** Fetched with `reports.file`. */
  token: string;
  warnings: string[];
}

export interface AssumptionsView {
  version: number;
  note: string;
  madeAt: string | null;
  body: AssumptionSet;
  /** True while the owner has not changed the project's own starting points. */
  untouched: boolean;
  versions: { version: number; madeAt: string; note: string }[];
}

export interface PartStock {
  id: number;
  name: string;
  inStock: number;
  unit: Minor | null;
  currency: Currency | null;
  planned: number;
}

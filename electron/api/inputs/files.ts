import { z } from 'zod';
import { ledgerKinds } from '../../../db/import/ledgers/columns.ts';
import { importKinds, lotChoices } from '../../../db/import/types.ts';
import { paperSizes, pdfStandards, reportFormats } from '../../../reports/types.ts';
import { dateOrders } from '../../../valuation/reading/date.ts';
import { encodings, separators } from '../../../valuation/reading/file-formats.ts';
import { decimalSigns } from '../../../valuation/reading/money.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { usualTitle } from '../../../valuation/wording/report-title.ts';
import { valueBases } from '../../../valuation/words.ts';
import { currency, grade, id, isoDate, line, locale } from '../fields.ts';
import { createLot, wishedTerms } from './lots.ts';
import { ownWord } from './words.ts';

const importOptions = z.object({
  as: z.enum(importKinds),
  sheet: z.string().optional(),
  encoding: z.enum(encodings).optional(),
  separator: z.enum(separators).optional(),
  /** The line of the headings in the first sheet; 0 where there are none. */
  headingLine: z.int().min(0).optional(),
  /** Their heading → our column; null leaves a column out. */
  map: z.record(z.string(), z.string().nullable()).default({}),
  decimal: z.record(z.string(), z.enum(decimalSigns)).default({}),
  dateOrder: z.record(z.string(), z.enum(dateOrders)).default({}),
  currency: currency.optional(),
  bareCurrency: z.record(z.string(), currency).optional(),
  /** Of sale records: for rows that do not say it themselves. */
  ofAll: z.object({ soldOn: isoDate.optional(), source: line.optional() }).optional(),
  /** Beside those that the collection has. */
  words: z.array(ownWord).max(10_000).default([]),
});
export const previewImport = importOptions.extend({
  file: z.file().max(2_000_000_000),
  addReference: z.boolean().default(false),
  lotId: id.optional(),
  lot: createLot.optional(),
  lots: z.enum(lotChoices).optional(),
});
export const runImport = importOptions.extend({
  file: z.file().max(2_000_000_000),
  dryRun: z.boolean().default(false),
  addReference: z.boolean().default(false),
  /** Gives every row that is not blank with what was understood of it. */
  rows: z.boolean().default(false),
  /** For a lot: an existing one, or a new one with its price. */
  lotId: id.optional(),
  lot: createLot.optional(),
  /** How cars of several purchases become lots; left out, by purchase. */
  lots: z.enum(lotChoices).optional(),
});
/** A list of the books, as it goes out. */
export const importLedger = z.object({
  file: z.file().max(2_000_000_000),
  as: z.enum(ledgerKinds),
  dryRun: z.boolean().default(false),
});
export const makeReport = z.object({
  format: z.enum(reportFormats),
  title: line.default(usualTitle),
  basis: z.enum(valueBases).default('fair market value'),
  lotId: id.optional(),
  carIds: z.array(id).optional(),
  on: isoDate.optional(),
  paper: z.enum(paperSizes).default('a4'),
  standard: z.enum(pdfStandards).default('a-2a'),
  /** Of the reader, for amounts and spelling. */
  locale: locale.default(plainLocale),
  withPhotographs: z.boolean().default(true),
  includeSold: z.boolean().default(false),
  /** Leaves out every value and price. */
  withoutValues: z.boolean().default(false),
  /** Leaves out where cars are kept. */
  withoutPlaces: z.boolean().default(false),
  /** Tells what is otherwise than in the newest such report that was saved on an earlier day. */
  withChanges: z.boolean().default(false),
  /** Prints when the report was prepared, which makes each one different. */
  sayPrepared: z.boolean().default(false),
  /** Prepares the pages for looking at, too. */
  preview: z.boolean().default(false),
});
/** The papers beside the collection report. */
export const paperKinds = [
  'worksheet',
  'dossier',
  'sale-sheet',
  'claim',
  'want-list',
  'bench-sheet',
  'bid',
  'ledger',
] as const;
export type PaperKind = (typeof paperKinds)[number];

export const makePaper = z.object({
  kind: z.enum(paperKinds),
  carId: id.optional(),
  lotId: id.optional(),
  paper: z.enum(paperSizes).default('a4'),
  standard: z.enum(pdfStandards).default('a-2a'),
  locale: locale.default(plainLocale),
  withoutValues: z.boolean().default(false),
  withoutPlaces: z.boolean().default(false),
  /** Of a want list: the grade that is looked for. */
  grade: grade.default(6),
  /** Of a want list: the set whose missing castings it is of; without it, of the whole reference. */
  setId: id.optional(),
  /**
   * Of a ledger: its first and last day. Without the last, a year from the first; without both, the year of
   * today.
   */
  from: isoDate.optional(),
  to: isoDate.optional(),
  /** Of a ledger without a first day: the month and day with which its years begin, such as `04-06`. */
  yearBegins: z
    .string()
    .regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'A month and a day, such as 04-06.')
    .default('01-01'),
  /** A ledger can be a table, too. */
  format: z.enum(['pdf', 'csv', 'xlsx', 'jsonl']).default('pdf'),
  /** Of a bid; what is left out is as it was saved with the lot. */
  ...wishedTerms.shape,
  /** Prepares the pages for looking at, too. */
  preview: z.boolean().default(false),
});
export type PaperRequest = z.input<typeof makePaper>;
export const reportFile = z.object({ token: z.string().min(1) });
export const reportPage = reportFile.extend({ page: z.int().min(1) });
export type ReportRequest = z.input<typeof makeReport>;

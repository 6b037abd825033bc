import { z } from 'zod';
import { hasCars } from '../../../db/records/cars/cars.ts';
import { readSetting } from '../../../db/records/collection/settings.ts';
import { type DataTable, tableFormats } from '../../../reports/tables/data-table.ts';
import { id, locale } from '../fields.ts';
import { makeReport } from '../inputs.ts';
import { reportData } from '../reports/report-data.ts';
import { keepReport, madeReport, mimes } from '../reports/reports.ts';
import { needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import { type OnProgress, streamed } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { ReportResult } from '../views.ts';
import { aboutCars } from './about-cars.ts';
import { carsAsSeen, type Seen, salesAsSeen } from './as-seen.ts';
import { decideAsSeen } from './decide-table.ts';
import { jobsTable } from './jobs-table.ts';
import { decisionsTable, disposalsTable, expensesTable, lotsTable } from './ledger-tables.ts';
import { referenceTable } from './reference-table.ts';
import { salesTable } from './sales-table.ts';
import { shownTable } from './shown-tables.ts';
import { tableBytes } from './table-bytes.ts';
import { wordsTable } from './words-table.ts';

/** The lists that go out whole. */
export const exportedLists = [
  'cars',
  'sales',
  'reference',
  'lots',
  'expenses',
  'disposals',
  'decisions',
  'jobs',
  'words',
] as const;
export type ExportedList = (typeof exportedLists)[number];

const seen = z.object({ query: z.string().max(20_000), locale });
const makeExport = z.object({
  list: z.enum(exportedLists),
  format: z.enum(tableFormats),
  /** These rows only, in this order; else all. For cars and sales. */
  ids: z.array(id).optional(),
  /** As the list of cars or of sales, or Decide, is seen: its filter, order and columns, as its address has them. */
  seen: seen.optional(),
  /** As any other list is seen: which of its rows, in their order. Of the reference these are castings or variations. */
  shown: z
    .object({ ids: z.array(id).max(200_000), of: z.enum(['castings', 'variations']).default('castings') })
    .optional(),
  /** What is said of the cars that a list of cars shows by its address, in its order; of a list about cars. */
  ofCars: seen.optional(),
});
type ExportWanted = z.output<typeof makeExport>;

const carsTable = async (
  session: Session,
  ids: number[] | undefined,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<DataTable> => {
  const { carsTable: tableOf, exportColumns } = await import('../../../reports/spreadsheet/columns.ts');
  const { db } = openOf(session).read;
  if (ids?.length === 0 || !(await hasCars(db)))
    return { name: 'Cars', columns: exportColumns, count: 0, rows: () => [] };
  const wanted = makeReport.parse({ format: 'csv', includeSold: true, ...(ids && { carIds: ids }) });
  // Sold cars and those that were only seen go out too, each by its status, so that the list comes back whole.
  return tableOf(await reportData(session, { ...wanted, withSeen: true }, onProgress, signal));
};

const tableAsSeen = async (
  session: Session,
  list: ExportedList,
  seen: Seen,
  tableOf: (ids: number[]) => Promise<DataTable>,
): Promise<DataTable> => {
  if (list === 'sales') return salesAsSeen(session, seen, tableOf);
  if (list !== 'cars' && list !== 'decisions') throw refused(`The list of ${list} goes out whole.`, 'list');
  const currency = (await readSetting(openOf(session).read.db, 'reporting-currency')) ?? 'USD';
  return list === 'cars'
    ? carsAsSeen(session, seen, currency, tableOf)
    : decideAsSeen(session, seen, currency);
};

const tableOf = (
  session: Session,
  { list, ids }: Pick<ExportWanted, 'list' | 'ids'>,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<DataTable> => {
  switch (list) {
    case 'cars':
      return carsTable(session, ids, onProgress, signal);
    case 'sales':
      return salesTable(session, ids);
    case 'reference':
      return referenceTable(session);
    case 'lots':
      return lotsTable(session);
    case 'expenses':
      return expensesTable(session);
    case 'disposals':
      return disposalsTable(session);
    case 'decisions':
      return decisionsTable(session);
    case 'jobs':
      return jobsTable(session);
    case 'words':
      return wordsTable(session);
  }
};

/** Writes a list as a file, held under a token until it is fetched. */
const make = needsCollection.input(makeExport).handler(({ context: { session }, input, signal }) =>
  streamed<ReportResult & { rows: number }>(async (onProgress, stop) => {
    const { list, seen, shown, ofCars } = input;
    const whole = (ids?: number[]) => tableOf(session, { list, ids: ids ?? input.ids }, onProgress, stop);
    const table = seen
      ? await tableAsSeen(session, list, seen, whole)
      : shown
        ? await shownTable(session, list, shown)
        : ofCars
          ? await aboutCars(session, list, ofCars, whole)
          : await whole();
    onProgress(0, 1, 'Writing the rows');
    const bytes = await tableBytes(session, table, input.format, stop);
    const mime = mimes[input.format];
    const fileName = `${input.list}-${await session.today()}.${input.format}`;
    const file = { fileName, mime, bytes };
    return { ...madeReport(file, keepReport(session, file), []), rows: table.count };
  }, signal),
);

/** What was passed on, held under a token until it is fetched. */
export interface SharedMarket extends ReportResult {
  variations: number;
  sales: number;
}

const share = needsCollection.handler(async ({ context: { session } }): Promise<SharedMarket> => {
  const { marketPackage } = await import('./market-package.ts');
  const { bytes, variations, sales } = await marketPackage(session);
  const fileName = `market-${await session.today()}.zip`;
  const file = { fileName, mime: mimes.zip, bytes };
  return { ...madeReport(file, keepReport(session, file), []), variations, sales };
});

export const exports = { make, share };

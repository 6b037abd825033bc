import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { checkReport } from '../model/check-report.ts';
import { tableCsv } from '../tables/table-csv.ts';
import type { CollectionReport } from '../types.ts';
import { carsTable } from './columns.ts';

/**
 * The report's cars as CSV, as `tableCsv` writes it, under our own import's column names. Throws RangeError
 * where `checkReport` does.
 */
export function* collectionCsv(report: CollectionReport): Generator<string> {
  checkReport(report);
  yield* tableCsv(carsTable(report));
}

/** Writes `collectionCsv` to a stream, waiting wherever the stream is slower, and ends it. */
export const writeCollectionCsv = (
  report: CollectionReport,
  to: Writable,
  signal?: AbortSignal,
): Promise<void> => pipeline(Readable.from(collectionCsv(report)), to, { signal });

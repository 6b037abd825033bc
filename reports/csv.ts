import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import Papa from 'papaparse';
import { minorToDecimal } from '../valuation/money.ts';
import { inertCell } from '../valuation/reading/inert.ts';
import { checkReport } from './check-report.ts';
import { type CellValue, exportColumns } from './columns.ts';
import type { CollectionReport } from './types.ts';

const rowsAtOnce = 500;
// Without it a common spreadsheet reads UTF-8 as the system's old code page and spoils every accent.
const byteOrderMark = '\ufeff';

const written = (cell: CellValue): string => {
  if (cell === null) return '';
  switch (cell.kind) {
    case 'text':
      return inertCell(cell.text.toWellFormed());
    case 'number':
      return String(cell.number);
    case 'amount':
      return minorToDecimal(cell.minor, cell.currency);
    case 'date':
      return cell.date;
  }
};

const lines = (rows: string[][]): string => `${Papa.unparse(rows, { newline: '\r\n' })}\r\n`;

/**
 * The report's cars as CSV after RFC 4180, piece by piece: UTF-8 with a byte-order mark, commas, CRLF, one heading row of
 * our own import's column names. Amounts are decimal strings with a point and as many decimals as their currency has,
 * dates ISO 8601. Text that a spreadsheet would run as a formula is made inert with a leading apostrophe (`inertCell`), which
 * our import takes off again. Throws RangeError where `checkReport` does.
 */
export function* collectionCsv(report: CollectionReport): Generator<string> {
  checkReport(report);
  yield byteOrderMark + lines([exportColumns.map(column => column.name)]);
  for (let start = 0; start < report.entries.length; start += rowsAtOnce)
    yield lines(
      report.entries
        .slice(start, start + rowsAtOnce)
        .map(entry => exportColumns.map(column => written(column.value(entry, report)))),
    );
}

/** Writes `collectionCsv` to a stream, waiting wherever the stream is slower, and ends it. */
export const writeCollectionCsv = (
  report: CollectionReport,
  to: Writable,
  signal?: AbortSignal,
): Promise<void> => pipeline(Readable.from(collectionCsv(report)), to, { signal });

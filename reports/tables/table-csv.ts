import Papa from 'papaparse';
import { minorToDecimal } from '../../valuation/money.ts';
import { inertCell } from '../../valuation/reading/inert.ts';
import type { CellValue, DataTable } from './data-table.ts';

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
 * A table as CSV after RFC 4180, piece by piece: UTF-8 with a byte-order mark, commas, CRLF, one heading row.
 * Amounts are decimal strings with a point and as many decimals as their currency has, dates ISO 8601. Text
 * that a spreadsheet would run as a formula is made inert with a leading apostrophe (`inertCell`), which our
 * import takes off again.
 */
export function* tableCsv({ columns, rows }: DataTable): Generator<string> {
  yield byteOrderMark + lines([columns.map(column => column.name)]);
  let some: string[][] = [];
  for (const row of rows()) {
    some.push(row.map(written));
    if (some.length === rowsAtOnce) {
      yield lines(some);
      some = [];
    }
  }
  if (some.length > 0) yield lines(some);
}

const plainValue = (cell: CellValue): string | number | null => {
  if (cell === null) return null;
  switch (cell.kind) {
    case 'text':
      return cell.text.toWellFormed();
    case 'number':
      return cell.number;
    case 'amount':
      return minorToDecimal(cell.minor, cell.currency);
    case 'date':
      return cell.date;
  }
};

/**
 * A table as JSON lines: an object a row, UTF-8, LF; amounts as decimal strings, dates ISO 8601, null where
 * nothing is known.
 */
export function* tableJsonLines({ columns, rows }: DataTable): Generator<string> {
  let some = '';
  for (const row of rows()) {
    some += `${JSON.stringify(Object.fromEntries(row.map((cell, c) => [columns[c]!.name, plainValue(cell)])))}\n`;
    if (some.length > 64_000) {
      yield some;
      some = '';
    }
  }
  if (some) yield some;
}

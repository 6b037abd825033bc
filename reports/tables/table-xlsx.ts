import type Excel from 'exceljs';
import { currencyDecimals, minorToDecimal } from '../../valuation/money.ts';
import type { CellValue, DataTable } from './data-table.ts';

// XML cannot hold these; a spreadsheet calls a file damaged that does.
const notInXml = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;
const longestCell = 32_767;
const exactDigits = 15;

export const cellText = (text: string): string =>
  text.toWellFormed().replace(notInXml, '').slice(0, longestCell);

const amountFormat = (currency: string): string => {
  const decimals = currencyDecimals(currency);
  return decimals === 0 ? '#,##0' : `#,##0.${'0'.repeat(decimals)}`;
};

const midnight = (date: string): Date => new Date(`${date.slice(0, 10)}T00:00:00Z`);

/**
 * Value and number format of a cell. Amounts of more digits than a spreadsheet keeps exactly go in as text.
 */
export const typedCell = (cell: CellValue): { value: Excel.CellValue; format?: string } => {
  if (cell === null) return { value: null };
  switch (cell.kind) {
    case 'text':
      return { value: cellText(cell.text) };
    case 'number':
      return { value: cell.number };
    case 'amount':
      return String(Math.abs(cell.minor)).length > exactDigits
        ? { value: minorToDecimal(cell.minor, cell.currency) }
        : { value: cell.minor / 10 ** currencyDecimals(cell.currency), format: amountFormat(cell.currency) };
    case 'date':
      return { value: midnight(cell.date), format: 'yyyy-mm-dd' };
  }
};

/**
 * Adds a table as a sheet: a frozen, bold heading row and first column, a filter, typed cells (text beginning
 * with = is text and cannot run). Yields to the event loop now and then. Rejects with the signal's reason.
 */
export const addTableSheet = async (
  workbook: Excel.stream.xlsx.WorkbookWriter,
  table: DataTable,
  signal: AbortSignal | undefined,
): Promise<void> => {
  const { columns } = table;
  const sheet = workbook.addWorksheet(table.name, { views: [{ state: 'frozen', xSplit: 1, ySplit: 1 }] });
  sheet.columns = columns.map(({ name, width }) => ({ header: name, key: name, width }));
  sheet.getRow(1).font = { bold: true };
  sheet.autoFilter = { from: { row: 1, column: 1 }, to: { row: 1, column: columns.length } };
  let written = 0;
  for (const given of table.rows()) {
    const cells = given.map(typedCell);
    const row = sheet.addRow(cells.map(cell => cell.value));
    for (const [c, cell] of cells.entries()) if (cell.format) row.getCell(c + 1).numFmt = cell.format;
    row.commit();
    written += 1;
    if (written % 1000 === 0) {
      signal?.throwIfAborted();
      await new Promise(resolve => setImmediate(resolve));
    }
  }
  sheet.commit();
};

import { once } from 'node:events';
import type { Writable } from 'node:stream';
import Excel from 'exceljs';
import { currencyDecimals, minorToDecimal } from '../valuation/money.ts';
import { checkReport } from './check-report.ts';
import { type CellValue, exportColumns } from './columns.ts';
import { totalsOf, withoutWorthSentence } from './totals.ts';
import type { CollectionReport } from './types.ts';

// XML cannot hold these; a spreadsheet calls a file damaged that does.
const notInXml = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;
const longestCell = 32_767;
const exactDigits = 15;

const cellText = (text: string): string => text.toWellFormed().replace(notInXml, '').slice(0, longestCell);

const amountFormat = (currency: string): string => {
  const decimals = currencyDecimals(currency);
  return decimals === 0 ? '#,##0' : `#,##0.${'0'.repeat(decimals)}`;
};

const midnight = (date: string): Date => new Date(`${date.slice(0, 10)}T00:00:00Z`);

/** Value and number format of a cell. Amounts of more digits than a spreadsheet keeps exactly go in as text. */
const typed = (cell: CellValue): { value: Excel.CellValue; format?: string } => {
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

const addCars = async (
  workbook: Excel.stream.xlsx.WorkbookWriter,
  report: CollectionReport,
  signal: AbortSignal | undefined,
): Promise<void> => {
  const sheet = workbook.addWorksheet('Cars', { views: [{ state: 'frozen', xSplit: 1, ySplit: 1 }] });
  sheet.columns = exportColumns.map(({ name, width }) => ({ header: name, key: name, width }));
  sheet.getRow(1).font = { bold: true };
  sheet.autoFilter = { from: { row: 1, column: 1 }, to: { row: 1, column: exportColumns.length } };
  for (const [i, entry] of report.entries.entries()) {
    const cells = exportColumns.map(column => typed(column.value(entry, report)));
    const row = sheet.addRow(cells.map(cell => cell.value));
    for (const [c, cell] of cells.entries()) if (cell.format) row.getCell(c + 1).numFmt = cell.format;
    row.commit();
    if (i % 1000 === 999) {
      signal?.throwIfAborted();
      await new Promise(resolve => setImmediate(resolve));
    }
  }
  sheet.commit();
};

const addSummary = (workbook: Excel.stream.xlsx.WorkbookWriter, report: CollectionReport): void => {
  const sheet = workbook.addWorksheet('About');
  sheet.columns = [{ width: 30 }, { width: 60 }, { width: 16 }];
  const line = (label: string, cell: CellValue, note = ''): void => {
    const { value, format } = typed(cell);
    const row = sheet.addRow([label, value, note]);
    row.getCell(1).font = { bold: true };
    row.getCell(2).alignment = { wrapText: true, vertical: 'top', horizontal: 'left' };
    if (format) row.getCell(2).numFmt = format;
    row.commit();
  };
  const text = (words: string): CellValue => ({ kind: 'text', text: words });
  line('Title', text(report.title));
  line('Collection', text(report.collection));
  line('Owner', text(report.owner));
  if (report.scope) line('Covers', text(report.scope));
  line('Basis of value', text(report.basis.name));
  line('Definition', text(report.basis.definition));
  line('Source of the definition', text(report.basis.source));
  line('Effective date', { kind: 'date', date: report.effectiveOn });
  line('Prepared', text(report.preparedOn));
  line('Assumptions', text(report.assumptionsVersion));
  line('Currency', text(report.currency));
  const { bases, sold } = totalsOf(report);
  for (const totals of bases) {
    line(`Cars, ${totals.basis}`, { kind: 'number', number: totals.cars });
    line(
      `As found, ${totals.basis}`,
      { kind: 'amount', minor: totals.asFound, currency: report.currency },
      report.currency,
    );
    const without = withoutWorthSentence(totals.withoutWorth);
    if (without) line('', text(without));
  }
  if (sold > 0) line('Sold, in no total', { kind: 'number', number: sold });
  line('', text('An inventory made by the owner, not an appraisal.'));
  sheet.commit();
};

/**
 * Writes the report as XLSX to a stream and ends it: a sheet "Cars" with the columns of the CSV, and a sheet "About" with the
 * basis of value and the totals. Amounts are numbers with their currency's decimals, dates are dates. Cells carry their
 * type, so that text beginning with = is text and cannot run; no apostrophe is added. Characters that XML cannot hold are
 * left out, and text is cut at the 32,767 characters that a cell can hold. Rejects where `checkReport` throws, with the
 * signal's reason when cancelled, and where the stream fails.
 */
export const writeCollectionXlsx = async (
  report: CollectionReport,
  to: Writable,
  signal?: AbortSignal,
): Promise<void> => {
  checkReport(report);
  signal?.throwIfAborted();
  const failed = once(to, 'error').then(([error]) => Promise.reject(error as Error));
  const write = async (): Promise<void> => {
    const workbook = new Excel.stream.xlsx.WorkbookWriter({ stream: to, useStyles: true });
    workbook.creator = cellText(report.owner);
    workbook.lastModifiedBy = workbook.creator;
    workbook.created = new Date(report.preparedOn);
    workbook.modified = workbook.created;
    await addCars(workbook, report, signal);
    addSummary(workbook, report);
    await workbook.commit();
  };
  try {
    await Promise.race([write(), failed]);
  } catch (error) {
    to.destroy();
    throw error;
  }
};

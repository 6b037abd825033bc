import type { Writable } from 'node:stream';
import type Excel from 'exceljs';
import { changesTable } from '../model/changes.ts';
import { checkReport } from '../model/check-report.ts';
import { ownEvidenceSentences } from '../model/own-evidence.ts';
import { totalsOf, withoutWorthSentence } from '../model/totals.ts';
import type { CellValue } from '../tables/data-table.ts';
import { addTableSheet, typedCell } from '../tables/table-xlsx.ts';
import { writeWorkbook } from '../tables/write-table.ts';
import type { CollectionReport } from '../types.ts';
import { carsTable } from './columns.ts';

const addSummary = (workbook: Excel.stream.xlsx.WorkbookWriter, report: CollectionReport): void => {
  const sheet = workbook.addWorksheet('About');
  sheet.columns = [{ width: 30 }, { width: 60 }, { width: 16 }];
  const line = (label: string, cell: CellValue, note = ''): void => {
    const { value, format } = typedCell(cell);
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
  if (!report.withoutValues) {
    line('Basis of value', text(report.basis.name));
    line('Definition', text(report.basis.definition));
    line('Source of the definition', text(report.basis.source));
  }
  line('Effective date', { kind: 'date', date: report.effectiveOn });
  if (report.preparedOn) line('Prepared', text(report.preparedOn));
  const { bases, sold } = totalsOf(report);
  if (report.withoutValues) {
    line('Cars', { kind: 'number', number: report.entries.length });
    line('', text('Values and prices are left out of this copy.'));
  } else {
    line('Assumptions', text(report.assumptionsVersion));
    line('Currency', text(report.currency));
  }
  for (const totals of report.withoutValues ? [] : bases) {
    line(`Cars, ${totals.basis}`, { kind: 'number', number: totals.cars });
    line(
      `As found, ${totals.basis}`,
      { kind: 'amount', minor: totals.asFound, currency: report.currency },
      report.currency,
    );
    const without = withoutWorthSentence(totals.withoutWorth);
    if (without) line('', text(without));
  }
  if (sold > 0) line(report.withoutValues ? 'Sold' : 'Sold, in no total', { kind: 'number', number: sold });
  for (const sentence of report.withoutValues ? [] : ownEvidenceSentences(report))
    line('Evidence', text(sentence));
  line('', text('An inventory made by the owner, not an appraisal.'));
  sheet.commit();
};

/**
 * Writes the report as XLSX to a stream and ends it: a sheet "Cars" with the columns of the CSV, a sheet
 * "Changes" where they are told, and a sheet "About" with the basis of value and the totals. Amounts are
 * numbers with their currency's decimals, dates are dates. Cells carry their type, so that text beginning
 * with = is text and cannot run; no apostrophe is added. Characters that XML cannot hold are left out, and
 * text is cut at the 32,767 characters that a cell can hold. Rejects where `checkReport` throws, with the
 * signal's reason when cancelled, and where the stream fails.
 */
export const writeCollectionXlsx = async (
  report: CollectionReport,
  to: Writable,
  signal?: AbortSignal,
): Promise<void> => {
  checkReport(report);
  signal?.throwIfAborted();
  await writeWorkbook(to, { creator: report.owner, made: new Date(report.stampedAt) }, async workbook => {
    await addTableSheet(workbook, carsTable(report), signal);
    const changes = changesTable(report);
    if (changes) await addTableSheet(workbook, changes, signal);
    addSummary(workbook, report);
  });
};

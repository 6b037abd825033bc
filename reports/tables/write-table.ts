import { once } from 'node:events';
import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import Excel from 'exceljs';
import type { DataTable } from './data-table.ts';
import { tableCsv, tableJsonLines } from './table-csv.ts';
import { addTableSheet, cellText } from './table-xlsx.ts';

/** The forms in which a list goes out. */
export const tableFormats = ['csv', 'xlsx', 'jsonl'] as const;
export type TableFormat = (typeof tableFormats)[number];

/**
 * Writes a workbook to a stream and ends it, `fill` adding its sheets. `made` is the only time in it. Rejects
 * where `fill` does, and where the stream fails.
 */
export const writeWorkbook = async (
  to: Writable,
  { creator, made }: { creator: string; made: Date },
  fill: (workbook: Excel.stream.xlsx.WorkbookWriter) => Promise<void>,
): Promise<void> => {
  const failed = once(to, 'error').then(([error]) => Promise.reject(error as Error));
  const write = async (): Promise<void> => {
    const workbook = new Excel.stream.xlsx.WorkbookWriter({ stream: to, useStyles: true });
    workbook.creator = cellText(creator);
    workbook.lastModifiedBy = workbook.creator;
    workbook.created = made;
    workbook.modified = made;
    await fill(workbook);
    await workbook.commit();
  };
  try {
    await Promise.race([write(), failed]);
  } catch (error) {
    to.destroy();
    throw error;
  }
};

/**
 * Writes one table to a stream in its format, and ends it. Rejects with the signal's reason, and where
 * the stream fails.
 */
export const writeTable = (
  table: DataTable,
  format: TableFormat,
  to: Writable,
  { creator, made, signal }: { creator: string; made: Date; signal?: AbortSignal | undefined },
): Promise<void> => {
  if (format === 'xlsx')
    return writeWorkbook(to, { creator, made }, workbook => addTableSheet(workbook, table, signal));
  return pipeline(Readable.from((format === 'csv' ? tableCsv : tableJsonLines)(table)), to, { signal });
};

import { once } from 'node:events';
import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import Excel from 'exceljs';
import type { DataTable, TableFormat } from './data-table.ts';
import { tableCsv, tableJsonLines } from './table-csv.ts';
import { addTableSheet, cellText } from './table-xlsx.ts';

/** The earliest day that a ZIP can name. */
const noDay = new Date(Date.UTC(1980, 0, 1));

interface Packer {
  append(source: unknown, entry: { name: string; date?: Date }): unknown;
}
interface Writer extends Excel.stream.xlsx.WorkbookWriter {
  zip: Packer;
  addThemes(): Promise<void>;
}
const WorkbookWriter = Excel.stream.xlsx.WorkbookWriter as unknown as new (
  options: Partial<Excel.stream.xlsx.WorkbookStreamWriterOptions>,
) => Writer;

/**
 * The library dates each part of the packed file by the hour of writing, so that no two files are the same;
 * here they all have one day. Themes are the first part that it adds, while it is constructed.
 */
class UndatedWriter extends WorkbookWriter {
  override addThemes(): Promise<void> {
    const { zip } = this;
    const append = zip.append.bind(zip);
    zip.append = (source, entry) => append(source, { ...entry, date: noDay });
    return super.addThemes();
  }
}

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
    const workbook = new UndatedWriter({ stream: to, useStyles: true });
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

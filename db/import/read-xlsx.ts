import { Readable } from 'node:stream';
import ExcelJS from 'exceljs';
import { type Cell, ImportFileError, type TableRow } from './types.ts';

const plain = (value: ExcelJS.CellValue): Cell => {
  if (value === null || value === undefined) return null;
  if (typeof value !== 'object' || value instanceof Date) return value;
  if ('richText' in value) return value.richText.map(run => run.text).join('');
  if ('text' in value) return plain(value.text as ExcelJS.CellValue);
  if ('result' in value) return plain(value.result as ExcelJS.CellValue);
  if ('error' in value) return value.error;
  return null;
};

const open = (file: Blob): ExcelJS.stream.xlsx.WorkbookReader =>
  new ExcelJS.stream.xlsx.WorkbookReader(
    Readable.fromWeb(file.stream() as import('node:stream/web').ReadableStream),
    {
      worksheets: 'emit',
      sharedStrings: 'cache',
      hyperlinks: 'ignore',
      styles: 'cache',
      entries: 'ignore',
    },
  );

interface NamedSheet extends AsyncIterable<ExcelJS.Row> {
  name: string;
}

const sheetsOf = async function* (file: Blob): AsyncGenerator<NamedSheet> {
  try {
    for await (const sheet of open(file)) yield sheet as unknown as NamedSheet;
  } catch (error) {
    if (error instanceof ImportFileError) throw error;
    throw new ImportFileError(
      `This file cannot be read as a spreadsheet (${(error as Error).message}). Open it in a spreadsheet program, save it as .xlsx or .csv, and import that.`,
    );
  }
};

/** Names of the sheets of an XLSX file that hold anything. Throws ImportFileError where it is no such file. */
export const xlsxSheets = async (file: Blob): Promise<string[]> => {
  const names: string[] = [];
  for await (const sheet of sheetsOf(file)) {
    let filled = false;
    for await (const row of sheet) filled ||= row.hasValues;
    if (filled) names.push(sheet.name);
  }
  return names;
};

/** The rows of one sheet one by one. Formulas give their last result; a cell that shows an error gives its text. */
export const readXlsx = async function* (file: Blob, name: string): AsyncGenerator<TableRow> {
  for await (const sheet of sheetsOf(file)) {
    if (sheet.name !== name) {
      for await (const _row of sheet);
      continue;
    }
    for await (const row of sheet) {
      const cells: Cell[] = [];
      row.eachCell({ includeEmpty: true }, (cell, column) => {
        cells[column - 1] = plain(cell.value);
      });
      yield { line: row.number, cells: Array.from(cells, cell => cell ?? null) };
    }
  }
};

import type { Cell } from '../../../valuation/reading/reading.ts';
import { plainWord } from '../../../valuation/reading/words.ts';
import { separatorNames } from '../../../valuation/wording/file-words.ts';
import { recogniseHeading } from '../columns.ts';
import {
  type Encoding,
  ImportFileError,
  type ImportOptions,
  type Separator,
  type TableRow,
} from '../types.ts';
import { cellText, isBlank } from './cell-text.ts';
import { type FoundEncoding, findEncoding } from './encoding.ts';
import { findSeparator, readCsv } from './read-csv.ts';
import { filledSheets, readXlsx } from './read-xlsx.ts';
import { openBook } from './xlsx-book.ts';

/** A file opened as a table: its headings, and its rows below them, readable as often as needed. */
export interface Table {
  format: 'csv' | 'xlsx';
  encoding: Encoding | null;
  encodingBecause: string | null;
  separator: Separator | null;
  sheets: string[];
  sheet: string | null;
  headingLine: number;
  headings: string[];
  warnings: string[];
  /** Some at a time. */
  rows(): AsyncGenerator<TableRow[]>;
}

/**
 * Opens a CSV or XLSX file as a table. Throws ImportFileError where it is neither, is empty, or names no such sheet.
 */
export const openTable = async (file: Blob, name: string, options: ImportOptions): Promise<Table> => {
  if (file.size === 0) throw new ImportFileError(`${name} is empty. Choose another file.`);
  const magic = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  if (magic[0] === 0x50 && magic[1] === 0x4b) return openXlsx(file, name, options);
  if (magic[0] === 0xd0 && magic[1] === 0xcf)
    throw new ImportFileError(
      `${name} is a spreadsheet of the old .xls kind. Save it as .xlsx or .csv and import that.`,
    );
  if (magic[0] === 0x25 && magic[1] === 0x50)
    throw new ImportFileError(`${name} is a PDF. Import a .csv or .xlsx file.`);
  return openCsv(file, name, options);
};

const openCsv = async (file: Blob, name: string, options: ImportOptions): Promise<Table> => {
  const warnings: string[] = [];
  const encoding: FoundEncoding = options.encoding
    ? { encoding: options.encoding, because: 'chosen', skip: await markLength(file) }
    : await findEncoding(file);
  if (encoding.encoding === 'windows-1252' && !options.encoding)
    warnings.push(`Read as Windows-1252, since ${encoding.because}; look at accents and quotation marks.`);
  if (encoding.spoilt)
    warnings.push(
      `${encoding.spoilt.bytes} bytes are no UTF-8, the first on line ${encoding.spoilt.line}; each is read as "\ufffd". Look for that sign, or choose another encoding.`,
    );
  const found = options.separator
    ? { separator: options.separator, sure: true }
    : await findSeparator(file, encoding);
  if (!found.sure)
    warnings.push(`The separator is not certain; taken to be a ${separatorNames[found.separator]}.`);
  const rows = () => readCsv(file, encoding, found.separator);
  const { line, headings } = await findHeadings(rows(), name, options);
  return {
    format: 'csv',
    encoding: encoding.encoding,
    encodingBecause: options.encoding ? null : encoding.because,
    separator: found.separator,
    sheets: [],
    sheet: null,
    headingLine: line,
    headings: tellApart(headings, warnings),
    warnings,
    rows: remembered(() => below(rows(), line), file.size <= rememberedCsv),
  };
};

const markLength = async (file: Blob): Promise<number> => {
  const [a, b, c] = new Uint8Array(await file.slice(0, 3).arrayBuffer());
  if (a === 0xef && b === 0xbb && c === 0xbf) return 3;
  return (a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff) ? 2 : 0;
};

const openXlsx = async (file: Blob, name: string, options: ImportOptions): Promise<Table> => {
  const warnings: string[] = [];
  const book = await openBook(file);
  const sheets = await filledSheets(book);
  if (sheets.length === 0) throw new ImportFileError(`${name} holds no filled sheet. Choose another file.`);
  if (options.sheet !== undefined && !sheets.includes(options.sheet))
    throw new ImportFileError(
      `${name} has no sheet "${options.sheet}"; it has ${sheets.map(s => `"${s}"`).join(', ')}.`,
    );
  const sheet = options.sheet ?? sheets[0] ?? '';
  if (options.sheet === undefined && book.sheets.find(own => own.name === sheet)?.hidden)
    warnings.push(`The sheet "${sheet}" is hidden in the file; it is read, since no other holds anything.`);
  if (sheets.length > 1 && options.sheet === undefined)
    warnings.push(
      `The file has ${sheets.length} sheets; "${sheet}" is read, ${sheets
        .slice(1)
        .map(s => `"${s}"`)
        .join(', ')} not.`,
    );
  const { line, headings } = await findHeadings(readXlsx(book, sheet), name, options);
  return {
    format: 'xlsx',
    encoding: null,
    encodingBecause: null,
    separator: null,
    sheets,
    sheet,
    headingLine: line,
    headings: tellApart(headings, warnings),
    warnings,
    rows: remembered(() => below(readXlsx(book, sheet), line), file.size <= rememberedXlsx),
  };
};

const below = async function* (
  batches: AsyncGenerator<TableRow[]>,
  headingLine: number,
): AsyncGenerator<TableRow[]> {
  for await (const rows of batches) {
    const under = (rows[0]?.line ?? 0) > headingLine ? rows : rows.filter(row => row.line > headingLine);
    if (under.length > 0) yield under;
  }
};

/** Files up to these sizes are kept in memory once they are read: they are read again for each step. */
const rememberedCsv = 4_000_000;
const rememberedXlsx = 400_000;
const rememberedCells = 1_000_000;

const remembered = (
  read: () => AsyncGenerator<TableRow[]>,
  small: boolean,
): (() => AsyncGenerator<TableRow[]>) => {
  let kept: TableRow[][] | null = null;
  return async function* () {
    if (kept) return yield* kept;
    const batches: TableRow[][] = [];
    let cells = 0;
    for await (const rows of read()) {
      // A small file can unpack to very many cells.
      for (const row of rows) cells += row.cells.length;
      if (small && cells <= rememberedCells) batches.push(rows);
      yield rows;
    }
    if (small && cells <= rememberedCells) kept = batches;
  };
};

/** Headings that are as likely a cell of a list, such as the answer "no". */
const weakHeadings = new Set([
  'no',
  'c',
  'rear',
  'inside',
  'where',
  'missing',
  'incomplete',
  'loose parts',
  'top',
]);

/** How much a line looks like headings: those we know or the owner has mapped, less the cells that are figures. */
const headingScore = (cells: Cell[], headings: string[], { as, map }: ImportOptions): number => {
  const mapped = new Set(Object.keys(map).map(plainWord));
  let score = 0;
  headings.forEach((heading, i) => {
    if (heading === '') return;
    if (mapped.has(plainWord(heading))) score += 3;
    else if (typeof cells[i] !== 'string' || /^[\d.,\s]+$/.test(heading)) score -= 1;
    else if (recogniseHeading(as, heading)) score += weakHeadings.has(plainWord(heading)) ? 0.4 : 1;
  });
  return score;
};

/**
 * The heading line: of the first filled lines, the one that has most headings which we know or the owner has mapped; titles
 * may stand above it. Where none has any, the first.
 */
const findHeadings = async (batches: AsyncGenerator<TableRow[]>, name: string, options: ImportOptions) => {
  let best: { line: number; headings: string[]; score: number } | null = null;
  let filled = 0;
  search: for await (const rows of batches)
    for (const { line, cells } of rows) {
      if (isBlank(cells)) continue;
      const headings = cells.map(cellText);
      const score = headingScore(cells, headings, options);
      if (!best || (score >= 1 && score > best.score)) best = { line, headings, score };
      if (++filled >= 20) break search;
    }
  if (!best) throw new ImportFileError(`${name} holds no rows. Choose another file.`);
  return best;
};

/** Gives every column a heading of its own: an empty one its place, a repeated one "(2)". */
const tellApart = (headings: string[], warnings: string[]): string[] => {
  const seen = new Map<string, number>();
  return headings.map((heading, index) => {
    const own = heading || `column ${index + 1}`;
    const times = (seen.get(own.toLowerCase()) ?? 0) + 1;
    seen.set(own.toLowerCase(), times);
    if (times === 1) return own;
    warnings.push(
      `The heading "${own}" stands more than once; the first is read, this one is called "${own} (${times})".`,
    );
    return `${own} (${times})`;
  });
};

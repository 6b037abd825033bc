import { plainWord } from '../../../valuation/reading/words.ts';
import { separatorNames } from '../../../valuation/wording/file-words.ts';
import {
  type HeadingLine,
  ImportFileError,
  type ImportOptions,
  type ReadAs,
  type TableRow,
} from '../types.ts';
import { noColours } from './cell-kind.ts';
import { cellText, isBlank } from './cell-text.ts';
import { withGridUnfolded } from './colour-grid.ts';
import { type FoundEncoding, findEncoding } from './encoding.ts';
import { HeadingReader } from './headings.ts';
import { headLines, Layout } from './layout.ts';
import { type MergedCell, mergedDown } from './merged-cells.ts';
import { findSeparator, noSeparator, readCsv } from './read-csv.ts';
import { readJsonLines } from './read-json-lines.ts';
import { readLabelled } from './read-labelled.ts';
import { filledSheets, readXlsx } from './read-xlsx.ts';
import { type Book, openBook } from './xlsx-book.ts';

/** A file opened as a table: its headings, and its rows below them, readable as often as needed. */
export interface Table extends ReadAs {
  /** All that there are once the file was read through: a block further down can have others. */
  headings: string[];
  /**
   * Plain words of headings further down that mean the same as one of `headings`, in whose column their cells
   * are.
   */
  likeOthers: ReadonlySet<string>;
  /** Places of the columns that have no heading in the file. */
  nameless: ReadonlySet<number>;
  /**
   * The column of names that stand alone above their rows, and that no heading names; null where there is
   * none.
   */
  section: number | null;
  /** Plain words of the colours that the reference names. */
  colours: ReadonlySet<string>;
  /** The first rows of the list. */
  sample: TableRow[];
  warnings: string[];
  /** Some at a time. */
  rows(): AsyncGenerator<TableRow[]>;
}

/** What a line of JSON begins with. */
const openBrace = 0x7b;

/**
 * Opens a CSV or XLSX file, or one of JSON lines, as a table; `colours` are the plain words of the reference's, by which columns
 * without headings are known. Throws ImportFileError where it is neither, is empty, or
 * names no such sheet.
 */
export const openTable = async (
  file: Blob,
  name: string,
  options: ImportOptions,
  colours: ReadonlySet<string> = noColours,
): Promise<Table> => {
  const reader = new HeadingReader(options, colours);
  if (file.size === 0) throw new ImportFileError(`${name} is empty. Choose another file.`);
  const magic = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  if (magic[0] === 0x50 && magic[1] === 0x4b) return openXlsx(file, name, options, reader);
  if (magic[0] === 0xd0 && magic[1] === 0xcf)
    throw new ImportFileError(
      `${name} is a spreadsheet of the old .xls kind. Save it as .xlsx or .csv and import that.`,
    );
  if (magic[0] === 0x25 && magic[1] === 0x50)
    throw new ImportFileError(`${name} is a PDF. Import a .csv or .xlsx file.`);
  if (magic[0] === openBrace) return openJsonLines(file, name, options, reader);
  return openCsv(file, name, options, reader);
};

const openJsonLines = (
  file: Blob,
  name: string,
  options: ImportOptions,
  reader: HeadingReader,
): Promise<Table> =>
  laidOut([{ read: () => readJsonLines(file) }], {
    name,
    options,
    reader,
    warnings: [],
    isSmall: file.size <= rememberedBytes,
    facts: {
      format: 'jsonl',
      encoding: null,
      encodingBecause: null,
      separator: null,
      sheets: [],
      sheet: null,
    },
  });

const openCsv = async (
  file: Blob,
  name: string,
  options: ImportOptions,
  reader: HeadingReader,
): Promise<Table> => {
  const warnings: string[] = [];
  const encoding: FoundEncoding = options.encoding
    ? { encoding: options.encoding, because: 'chosen', skip: await markLength(file) }
    : await findEncoding(file);
  if (encoding.encoding === 'windows-1252' && !options.encoding)
    warnings.push(`Read as Windows-1252, since ${encoding.because}; look at accents and quotation marks.`);
  if (encoding.spoilt)
    warnings.push(
      `${encoding.spoilt.bytes} bytes are not UTF-8, the first on line ${encoding.spoilt.line}; each is read as "\ufffd". Look for that sign, or choose another encoding.`,
    );
  const notes = options.separator
    ? null
    : await readLabelled(file, encoding, label => reader.weight(label) >= 0.4);
  const found = options.separator
    ? { separator: options.separator, sure: true }
    : await findSeparator(file, encoding, cells => reader.nameCars(cells) || reader.score(cells) >= 2);
  for (const line of notes?.above ?? [])
    warnings.push(`"${line.slice(0, 100)}" above the first record is not read.`);
  if (!notes && !found.sure && found.separator)
    warnings.push(`The separator is not certain; read as a ${separatorNames[found.separator]}.`);
  const read = async function* () {
    if (notes) yield notes.rows;
    else yield* readCsv(file, encoding, found.separator ?? noSeparator);
  };
  return laidOut([{ read }], {
    name,
    options,
    reader,
    warnings,
    isSmall: file.size <= rememberedBytes,
    facts: {
      format: 'csv',
      encoding: encoding.encoding,
      encodingBecause: options.encoding ? null : encoding.because,
      separator: notes ? null : found.separator,
      sheets: [],
      sheet: null,
    },
  });
};

const markLength = async (file: Blob): Promise<number> => {
  const [a, b, c] = new Uint8Array(await file.slice(0, 3).arrayBuffer());
  if (a === 0xef && b === 0xbb && c === 0xbf) return 3;
  return (a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff) ? 2 : 0;
};

const openXlsx = async (
  file: Blob,
  name: string,
  options: ImportOptions,
  reader: HeadingReader,
): Promise<Table> => {
  const warnings: string[] = [];
  const book = await openBook(file);
  const sheets = await filledSheets(book);
  if (sheets.length === 0) throw new ImportFileError(`${name} holds no filled sheet. Choose another file.`);
  if (options.sheet !== undefined && !sheets.includes(options.sheet))
    throw new ImportFileError(
      `${name} has no sheet "${options.sheet}"; it has ${sheets.map(s => `"${s}"`).join(', ')}.`,
    );
  const isHidden = (sheet: string) => book.sheets.some(own => own.name === sheet && own.hidden);
  const shown = sheets.filter(sheet => !isHidden(sheet));
  const read = options.sheet !== undefined ? [options.sheet] : shown.length > 0 ? shown : sheets.slice(0, 1);
  const [only, another] = read;
  if (options.sheet === undefined && shown.length === 0)
    warnings.push(`The sheet "${only}" is hidden in the file; it is read, since no other holds anything.`);
  const left = options.sheet === undefined ? sheets.filter(sheet => !read.includes(sheet)) : [];
  if (another !== undefined) warnings.push(`The file has ${read.length} sheets; all of them are read.`);
  if (left.length > 0)
    warnings.push(
      left.length === 1
        ? `The sheet ${quoted(left)} is hidden in the file, and not read.`
        : `The sheets ${quoted(left)} are hidden in the file, and not read.`,
    );
  return laidOut(
    read.map(sheet => ({ sheet, read: sheetReader(book, sheet) })),
    {
      name,
      options,
      reader,
      warnings,
      isSmall: file.size <= rememberedBytes,
      facts: {
        format: 'xlsx',
        encoding: null,
        encodingBecause: null,
        separator: null,
        sheets,
        sheet: another === undefined ? (only ?? null) : null,
      },
    },
  );
};

/** Reads the rows of a sheet with what is merged down into them, as often as needed. */
const sheetReader = (book: Book, name: string): (() => AsyncGenerator<TableRow[]>) => {
  const sheet = book.sheets.find(own => own.name === name);
  let merged: MergedCell[] | null = null;
  return async function* () {
    merged ??= sheet ? await mergedDown(sheet.entry) : [];
    yield* readXlsx(book, name, merged);
  };
};

const quoted = (names: string[]): string => names.map(name => `"${name}"`).join(', ');

/**
 * The cells of a file are kept in memory once they are read, for the steps after that, where the file is no
 * larger than this and has no more cells: some 100,000 rows. Larger ones are read again for each step, so
 * that memory stays bounded.
 */
const rememberedBytes = 16_000_000;
const rememberedCells = 1_000_000;
/** Rows of the list that are kept as a sample. */
const sampled = 200;

interface Source {
  sheet?: string;
  read: () => AsyncGenerator<TableRow[]>;
}

interface Opening {
  name: string;
  options: ImportOptions;
  reader: HeadingReader;
  warnings: string[];
  isSmall: boolean;
  facts: Omit<
    Table,
    | 'headingLine'
    | 'headingLines'
    | 'headings'
    | 'likeOthers'
    | 'nameless'
    | 'colours'
    | 'section'
    | 'sample'
    | 'warnings'
    | 'rows'
  >;
}

/** The first filled rows of a sheet, with the rest of it to come. */
const headOf = async (batches: AsyncGenerator<TableRow[]>): Promise<TableRow[]> => {
  const head: TableRow[] = [];
  while (head.length < headLines) {
    const { done, value } = await batches.next();
    if (done) break;
    for (const row of value) if (!isBlank(row.cells)) head.push(row);
  }
  return head;
};

const shownCells = 12;

/** Lines of several words that may be the headings. */
const otherHeadings = (head: TableRow[], chosen: number): HeadingLine[] =>
  head.flatMap(({ line, cells }) => {
    const texts = cells.map(cellText);
    const words = texts.filter(text => /\p{L}/u.test(text));
    return line === chosen || words.length < 2
      ? []
      : [{ line, cells: texts.slice(0, shownCells).map(text => text.slice(0, 60)) }];
  });

/**
 * One table of the sheets of a file: read through once while it is used for the first time, and from
 * memory after that.
 */
const laidOut = async (sources: Source[], opening: Opening): Promise<Table> => {
  const { name, options, reader, warnings, isSmall, facts } = opening;
  const layout = new Layout(reader, warnings);
  const lists = sources.map(({ sheet, read }) => ({
    sheet,
    read: options.as === 'lot' ? withGridUnfolded(read, reader, said => warnings.push(said)) : read,
  }));
  const opened = await Promise.all(
    lists.map(async ({ read }) => {
      const batches = read();
      return { batches, head: await headOf(batches) };
    }),
  );
  if (opened.every(({ head }) => head.length === 0))
    throw new ImportFileError(`${name} holds no rows. Choose another file.`);
  const [{ head: top } = { head: [] }] = opened;
  if (options.headingLine && !top.some(({ line }) => line === options.headingLine))
    throw new ImportFileError(
      `The headings cannot be on line ${options.headingLine}: choose one of the first ${top.length} filled lines, or 0 for none.`,
    );
  const hasLists =
    sources.length > 1 &&
    opened.some(({ head }) => reader.nameCars(head[layout.findHeadings(head)]?.cells ?? []));
  const lay = async function* (
    begun: { batches: AsyncGenerator<TableRow[]>; head: TableRow[]; isFirst: boolean },
    sheet: string | undefined,
  ): AsyncGenerator<TableRow[]> {
    const first: TableRow[] = [];
    const headingLine = begun.isFirst ? options.headingLine : undefined;
    layout.begin(begun.head, first, { sheet, hasLists, headingLine });
    yield first;
    for await (const batch of begun.batches) {
      const rows: TableRow[] = [];
      for (const row of batch) if (!isBlank(row.cells)) layout.lay(row, rows);
      if (rows.length > 0) yield rows;
    }
    const last: TableRow[] = [];
    layout.end(last);
    if (last.length > 0) yield last;
  };
  const pass = async function* (first: typeof opened | null): AsyncGenerator<TableRow[]> {
    for (const [index, { sheet, read }] of lists.entries()) {
      const known = first?.[index];
      const batches = known?.batches ?? read();
      const head = known?.head ?? (await headOf(batches));
      yield* lay({ batches, head, isFirst: index === 0 }, sheet);
    }
  };
  // The first batch is laid out now, so that its headings are there.
  const begun = pass(opened);
  const { value: start } = await begun.next();
  let fresh: AsyncGenerator<TableRow[]> | null = begun;
  const read = async function* (): AsyncGenerator<TableRow[]> {
    if (!fresh) return yield* pass(null);
    const rest = fresh;
    fresh = null;
    yield start;
    yield* rest;
  };
  const rows = remembered(read, isSmall, () => !layout.isOutgrown);
  const hasMapped = () => {
    const known = new Set(layout.headings.map(plainWord));
    return Object.keys(options.map).every(
      theirs => known.has(plainWord(theirs)) || layout.likeOthers.has(plainWord(theirs)),
    );
  };
  // A heading that the owner has mapped may be one of a block further down: it is looked for before it is
  // missed.
  if (!hasMapped()) for await (const _ of rows()) if (hasMapped()) break;
  return {
    ...facts,
    headingLine: layout.headingLine,
    headingLines: otherHeadings(top, layout.headingLine),
    headings: layout.headings,
    likeOthers: layout.likeOthers,
    nameless: layout.nameless,
    get section() {
      return layout.section;
    },
    colours: reader.colours,
    sample: start.filter((row: TableRow) => row.not === undefined).slice(0, sampled),
    warnings,
    rows,
  };
};

const remembered = (
  read: () => AsyncGenerator<TableRow[]>,
  small: boolean,
  isLasting: () => boolean,
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
      else batches.length = 0;
      yield rows;
    }
    if (small && cells <= rememberedCells && isLasting()) kept = batches;
  };
};

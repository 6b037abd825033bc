import Papa from 'papaparse';
import { separators } from '../../../valuation/reading/file-formats.ts';
import { activeCell } from '../../../valuation/reading/inert.ts';
import { ImportFileError, type Separator, type TableRow } from '../types.ts';
import { type FoundEncoding, text, wholeText } from './encoding.ts';

/**
 * Characters of one row at most: beyond it nobody can tell a cell without end from a quotation mark
 * that nothing closes.
 */
const longestRow = 8_000_000;
const headLength = 65_536;

const headOf = (file: Blob, encoding: FoundEncoding): Promise<string> =>
  wholeText(file.slice(0, headLength), encoding);

const newlines = (value: string): number => {
  let count = 0;
  for (let i = 0; i < value.length; i++) {
    const code = value.charCodeAt(i);
    if (code === 10 || (code === 13 && value.charCodeAt(i + 1) !== 10)) count++;
  }
  return count;
};

/** In the place of a separator, where each line is one text; no text holds it. */
export const noSeparator = '\u001f';

/**
 * Finds the separator of a CSV file from its beginning: the one that gives the same number of cells, above
 * one, on most lines. `sure` is false where no candidate does (a file of one column) or two do equally. Where
 * the lines are uneven and none of them is headings (`isHeadings`), commas are part of what is written, and
 * each line is one text: null.
 */
export const findSeparator = async (
  file: Blob,
  encoding: FoundEncoding,
  isHeadings: (cells: string[]) => boolean,
): Promise<{ separator: Separator | null; sure: boolean }> => {
  const head = await headOf(file, encoding);
  const scores = separators.map(separator => {
    const rows = Papa.parse<string[]>(head, { delimiter: separator, preview: 60 }).data.filter(row =>
      row.some(c => c.trim()),
    );
    const widths = new Map<number, number>();
    for (const row of rows) widths.set(row.length, (widths.get(row.length) ?? 0) + 1);
    const [width = 1, lines = 0] = [...widths].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
    const even = lines / Math.max(1, rows.length);
    const score = width > 1 ? even * Math.min(width, 8) : 0;
    const wide = rows.filter(row => row.length > 1);
    const alike = Math.max(0, ...[...widths].flatMap(([own, count]) => (own > 1 ? [count] : [])));
    const isUneven = wide.length > 0 && (alike < wide.length * 0.9 || wide.length < rows.length * 0.6);
    return { separator, score, isUneven, hasHeadings: rows.some(isHeadings), lines: rows.length };
  });
  scores.sort((a, b) => b.score - a.score);
  const [best, second] = scores;
  if (best && best.lines > 2 && best.isUneven && !scores.some(({ hasHeadings }) => hasHeadings))
    return { separator: null, sure: true };
  return {
    separator: best?.score ? best.separator : ',',
    sure: !!best?.score && best.score > (second?.score ?? 0),
  };
};

interface ParsedPiece {
  data: string[][];
  errors: { code: string; row?: number }[];
  meta: { cursor: number };
}

const unclosed = (line: number) =>
  new ImportFileError(
    `Line ${line}: a quotation mark is opened and not closed again. Close it (or write it twice inside a value) and import again.`,
  );

const endless = (line: number) =>
  new ImportFileError(
    `Line ${line}: a row here is longer than ${longestRow / 1_000_000} million characters, more than can be read. If a quotation mark is opened there and not closed again, close it; otherwise shorten that cell. Then import again.`,
  );

const swallowing = (last: number): string =>
  `a quotation mark on this line is closed only on line ${last}, so that the lines between became part of one cell; close it where the cell ends, or write it twice inside the value`;

/** The kind of a text: its figures as 9, its letters as a; so that "B-12" and "A-7" are alike. */
const kindOf = (cell: string): string =>
  cell
    .trim()
    .replace(/\d+/g, '9')
    .replace(/\p{L}+/gu, 'a');

/**
 * True where a cell of several lines holds what looks like rows of the file: a line of as many cells as the
 * row has, which begins as the row does. A quotation mark has then most likely been forgotten, although a
 * later one closes it.
 */
const holdsRows = (cells: string[], separator: string): boolean => {
  const [first = ''] = cells;
  if (cells.length < 3) return false;
  return cells.some(cell => {
    if (!/[\r\n]/.test(cell)) return false;
    return cell
      .split(/\r\n|\n|\r/)
      .slice(1)
      .some(line => {
        const inside = line.split(separator);
        return inside.length === cells.length && kindOf(inside[0] ?? '') === kindOf(first) && first !== '';
      });
  });
};

/** The rows of a CSV file (RFC 4180, other separators allowed), some at a time, with bounded memory. */
export const readCsv = async function* (
  file: Blob,
  encoding: FoundEncoding,
  separator: Separator | typeof noSeparator,
): AsyncGenerator<TableRow[]> {
  // A line of its own ends with LF, whether CR stands before it or not; in a file without any LF, with CR.
  const head = await headOf(file, encoding);
  const newline = head.includes('\n') || !head.includes('\r') ? '\n' : '\r';
  let pending = '';
  // A spreadsheet counts rows, though a cell of several lines is several lines to an editor.
  let line = 1;
  let written = 1;
  const parse = (whole: boolean): TableRow[] => {
    // Where each line is one text, a quotation mark is part of it.
    const quoteChar = separator === noSeparator ? noSeparator : '"';
    const parser = new Papa.Parser({ delimiter: separator, newline, quoteChar });
    const { data, errors, meta } = parser.parse(pending, 0, !whole) as ParsedPiece;
    pending = pending.slice(meta.cursor);
    const malformed = new Set(errors.flatMap(({ code, row }) => (code === 'InvalidQuotes' ? [row] : [])));
    const rows = data.map((cells, i) => {
      const last = cells.length - 1;
      if (newline === '\n' && cells[last]?.endsWith('\r')) cells[last] = cells[last].slice(0, -1);
      const row: TableRow = { line, cells };
      line += 1;
      let lines = 1;
      for (const cell of cells) if (cell.includes('\n') || cell.includes('\r')) lines += newlines(cell);
      written += lines;
      if (lines > 1 && (malformed.has(i) || holdsRows(cells, separator))) row.fault = swallowing(written - 1);
      for (let c = 0; c <= last; c++) if (cells[c]?.startsWith("'")) cells[c] = activeCell(cells[c] ?? '');
      return row;
    });
    if (whole && errors.some(error => error.code === 'MissingQuotes'))
      throw unclosed(rows.at(-1)?.line ?? line);
    return rows;
  };
  // A long cell is parsed again only once as much has come again, so that its cost stays in
  // proportion to its length.
  let enough = 0;
  for await (const piece of text(file, encoding)) {
    pending += piece;
    if (pending.length < enough) continue;
    const rows = parse(false);
    if (rows.length > 0) yield rows;
    if (pending.length > longestRow) throw endless(line);
    enough = pending.length > headLength ? pending.length * 2 : 0;
  }
  if (pending) yield parse(true);
};

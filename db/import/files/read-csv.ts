import Papa from 'papaparse';
import { ImportFileError, type Separator, type TableRow } from '../types.ts';
import type { FoundEncoding } from './encoding.ts';

const separators: readonly Separator[] = [',', ';', '\t', '|'];
/** A row longer than this is an unclosed quotation mark, not a record. */
const longestRow = 400_000;
const headLength = 65_536;

const text = async function* (file: Blob, { encoding, skip }: FoundEncoding): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding);
  for await (const chunk of file.slice(skip).stream()) yield decoder.decode(chunk, { stream: true });
  yield decoder.decode();
};

const headOf = async (file: Blob, encoding: FoundEncoding): Promise<string> => {
  let head = '';
  for await (const piece of text(file.slice(0, headLength), encoding)) head += piece;
  return head;
};

const newlines = (value: string): number => {
  let count = 0;
  for (let i = 0; i < value.length; i++) {
    const code = value.charCodeAt(i);
    if (code === 10 || (code === 13 && value.charCodeAt(i + 1) !== 10)) count++;
  }
  return count;
};

/**
 * Finds the separator of a CSV file from its beginning: the one that gives the same number of cells, above one, on most lines.
 * `sure` is false where no candidate does (a file of one column) or two do equally.
 */
export const findSeparator = async (
  file: Blob,
  encoding: FoundEncoding,
): Promise<{ separator: Separator; sure: boolean }> => {
  const head = await headOf(file, encoding);
  const scores = separators.map(separator => {
    const rows = Papa.parse<string[]>(head, { delimiter: separator, preview: 60 }).data.filter(row =>
      row.some(c => c.trim()),
    );
    const widths = new Map<number, number>();
    for (const row of rows) widths.set(row.length, (widths.get(row.length) ?? 0) + 1);
    const [width = 1, lines = 0] = [...widths].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
    return { separator, score: width > 1 ? (lines / Math.max(1, rows.length)) * Math.min(width, 8) : 0 };
  });
  scores.sort((a, b) => b.score - a.score);
  const [best, second] = scores;
  return {
    separator: best?.score ? best.separator : ',',
    sure: !!best?.score && best.score > (second?.score ?? 0),
  };
};

interface ParsedPiece {
  data: string[][];
  errors: { code: string }[];
  meta: { cursor: number };
}

const unclosed = (line: number) =>
  new ImportFileError(
    `Line ${line}: a quotation mark is opened and not closed again. Close it (or write it twice inside a value) and import again.`,
  );

/** The rows of a CSV file (RFC 4180, other separators allowed), some at a time, with bounded memory. */
export const readCsv = async function* (
  file: Blob,
  encoding: FoundEncoding,
  separator: Separator,
): AsyncGenerator<TableRow[]> {
  // A line of its own ends with LF, whether CR stands before it or not; in a file without any LF, with CR.
  const head = await headOf(file, encoding);
  const newline = head.includes('\n') || !head.includes('\r') ? '\n' : '\r';
  let pending = '';
  let line = 1;
  const parse = (whole: boolean): TableRow[] => {
    const parser = new Papa.Parser({ delimiter: separator, newline, quoteChar: '"' });
    const { data, errors, meta } = parser.parse(pending, 0, !whole) as ParsedPiece;
    pending = pending.slice(meta.cursor);
    const rows = data.map(cells => {
      const last = cells.length - 1;
      if (newline === '\n' && cells[last]?.endsWith('\r')) cells[last] = cells[last].slice(0, -1);
      const row = { line, cells };
      line += 1;
      for (const cell of cells) if (cell.includes('\n') || cell.includes('\r')) line += newlines(cell);
      return row;
    });
    if (whole && errors.some(error => error.code === 'MissingQuotes'))
      throw unclosed(rows.at(-1)?.line ?? line);
    return rows;
  };
  for await (const piece of text(file, encoding)) {
    pending += piece;
    const rows = parse(false);
    if (rows.length > 0) yield rows;
    if (pending.length > longestRow) throw unclosed(line);
  }
  if (pending) yield parse(true);
};

import { Readable } from 'node:stream';
import Papa from 'papaparse';
import type { FoundEncoding } from './encoding.ts';
import { ImportFileError, type Separator, type TableRow } from './types.ts';

const separators: readonly Separator[] = [',', ';', '\t', '|'];
/** A cell longer than this is an unclosed quotation mark, not a note. */
const longestCell = 200_000;

const text = async function* (file: Blob, { encoding, skip }: FoundEncoding): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding);
  for await (const chunk of file.slice(skip).stream()) yield decoder.decode(chunk, { stream: true });
  yield decoder.decode();
};

const unclosed = (line: number) =>
  new ImportFileError(
    `Line ${line}: a quotation mark is opened and not closed again. Close it (or write it twice inside a value) and import again.`,
  );

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
  let head = '';
  for await (const piece of text(file.slice(0, 65_536), encoding)) head += piece;
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

/** The rows of a CSV file (RFC 4180, other separators allowed) one by one, with bounded memory. */
export const readCsv = async function* (
  file: Blob,
  encoding: FoundEncoding,
  separator: Separator,
): AsyncGenerator<TableRow> {
  const parser = Papa.parse(Papa.NODE_STREAM_INPUT, {
    delimiter: separator,
    header: false,
    skipEmptyLines: false,
    // Chosen for text without quotation marks, it splits the rest of the text anew at every pause: 40 times slower here.
    fastMode: false,
  });
  let lastSign = '';
  const watched = async function* () {
    for await (const piece of text(file, encoding)) {
      lastSign = piece.trimEnd().at(-1) ?? lastSign;
      yield piece;
    }
  };
  const source = Readable.from(watched());
  source.on('error', error => parser.destroy(error));
  source.pipe(parser);
  let line = 1;
  let lastLine = 1;
  let openEnd = false;
  try {
    for await (const cells of parser as AsyncIterable<string[]>) {
      let inside = 0;
      for (const cell of cells) {
        if (cell.length > longestCell) throw unclosed(line);
        if (cell.includes('\n') || cell.includes('\r')) inside += newlines(cell);
      }
      yield { line, cells };
      lastLine = line;
      openEnd = /[\r\n]/.test(cells.at(-1)?.trimEnd() ?? '');
      line += 1 + inside;
    }
    // A value with a line break in it was quoted; the file's last one must then end with its quotation mark.
    if (openEnd && lastSign !== '"') throw unclosed(lastLine);
  } finally {
    source.destroy();
    parser.destroy();
  }
};

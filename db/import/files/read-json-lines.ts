import { ImportFileError, type TableRow } from '../types.ts';
import { text } from './encoding.ts';

const rowsAtOnce = 500;
/** JSON lines are UTF-8, without a mark. */
const utf8 = { encoding: 'utf-8', skip: 0 } as const;

const written = (value: unknown): string =>
  value === null || value === undefined
    ? ''
    : typeof value === 'string'
      ? value
      : typeof value === 'object'
        ? JSON.stringify(value)
        : String(value);

const objectOf = (json: string, line: number): Record<string, unknown> => {
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch {
    throw new ImportFileError(
      `Line ${line} is not JSON. Each line of such a file is an object: {"heading": "cell", …}.`,
    );
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    throw new ImportFileError(`Line ${line} is not an object of JSON: {"heading": "cell", …}.`);
  return value as Record<string, unknown>;
};

const objects = async function* (
  file: Blob,
): AsyncGenerator<{ line: number; object: Record<string, unknown> }> {
  let pending = '';
  let line = 0;
  for await (const piece of text(file, utf8)) {
    const lines = (pending + piece).split('\n');
    pending = lines.pop() ?? '';
    for (const one of lines) {
      line += 1;
      if (one.trim() !== '') yield { line, object: objectOf(one, line) };
    }
  }
  if (pending.trim() !== '') yield { line: line + 1, object: objectOf(pending, line + 1) };
};

/**
 * The rows of a file of JSON lines, some at a time: the names of all its objects as headings, then each
 * object as the texts of its values. Rows are counted as a spreadsheet of them would count, headings first. Throws ImportFileError naming the line that is no object.
 */
export const readJsonLines = async function* (file: Blob): AsyncGenerator<TableRow[]> {
  const names = new Set<string>();
  for await (const { object } of objects(file)) for (const name of Object.keys(object)) names.add(name);
  const headings = [...names];
  let rows: TableRow[] = [{ line: 1, cells: headings }];
  for await (const { line, object } of objects(file)) {
    rows.push({ line: line + 1, cells: headings.map(name => written(object[name])) });
    if (rows.length < rowsAtOnce) continue;
    yield rows;
    rows = [];
  }
  if (rows.length > 0) yield rows;
};

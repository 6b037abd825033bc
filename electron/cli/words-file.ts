import { openAsBlob } from 'node:fs';
import { basename } from 'node:path';
import Papa from 'papaparse';
import { cellText } from '../../db/import/files/cell-text.ts';
import { openTable } from '../../db/import/files/table.ts';
import { activeCell, inertCell } from '../../valuation/reading/inert.ts';
import { readMeaning, wordField } from '../../valuation/reading/meanings.ts';
import type { OwnWord } from '../../valuation/reading/sale-line/lexicon.ts';
import { Refused } from './terminal.ts';
import { textOf } from './text-file.ts';

interface Read {
  fields: string[];
  rows: { line: number; cell: (name: string) => string }[];
}

const plainHeading = (heading: string) => heading.trim().toLowerCase();

const fromCsv = (csv: string): Read => {
  const { data, meta } = Papa.parse<Record<string, string>>(csv.trim(), {
    header: true,
    transformHeader: plainHeading,
  });
  return {
    fields: meta.fields ?? [],
    rows: data.map((row, index) => ({
      line: index + 2,
      cell: name => activeCell(row[name]?.trim() ?? ''),
    })),
  };
};

const fromTable = async (file: Blob, name: string): Promise<Read> => {
  const options = { as: 'lot', map: {}, decimal: {}, dateOrder: {}, headingLine: 1 } as const;
  const table = await openTable(file, name, options);
  const fields = table.headings.map(plainHeading);
  const rows: Read['rows'] = [];
  // A row of words may look like headings, as it names a column.
  for await (const batch of table.rows())
    for (const { line, cells } of batch)
      if (line !== table.headingLine)
        rows.push({ line, cell: name => cellText(cells[fields.indexOf(name)] ?? null).trim() });
  return { fields, rows };
};

/** A spreadsheet and JSON lines by how they begin; anything else is CSV. */
const readWords = async (path: string): Promise<Read> => {
  const file = await openAsBlob(path);
  const begin = await file.slice(0, 2).text();
  return begin === 'PK' || begin.startsWith('{')
    ? fromTable(file, basename(path))
    : fromCsv(await textOf(path));
};

/**
 * The words of a CSV or XLSX file, or of JSON lines, with the columns column, text, field and meaning. A row without a meaning is not
 * answered and left out, so that a report of what was not understood can be given back half filled in; the
 * field "nothing" says that a text means nothing.
 */
export const wordsIn = async (path: string): Promise<OwnWord[]> => {
  const { fields, rows } = await readWords(path);
  const lacking = ['text', 'field', 'meaning'].filter(column => !fields.includes(column));
  if (lacking.length > 0)
    throw new Refused(`${path} lacks ${lacking.join(', ')}; its columns are column,text,field,meaning.`);
  return rows.flatMap(({ line, cell }) => {
    const [column, text, field, meaning] = ['column', 'text', 'field', 'meaning'].map(cell) as [
      string,
      string,
      string,
      string,
    ];
    const isNothing = wordField(field) === 'nothing';
    if (text === '' || (meaning === '' && !isNothing)) return [];
    const read = readMeaning(field, meaning);
    if (!read.ok) throw new Refused(`${path}, line ${line}, "${text}": ${read.reason}.`);
    return [
      { column: column || '*', text, field: wordField(field) ?? field, meaning: isNothing ? '' : meaning },
    ];
  });
};

/** Words, or texts that wait for a meaning, as such a file. */
export const wordsCsv = (words: readonly OwnWord[]): string =>
  `${Papa.unparse(
    {
      fields: ['column', 'text', 'field', 'meaning'],
      data: words.map(({ column, text, field, meaning }) => [column, text, field, meaning].map(inertCell)),
    },
    { newline: '\n' },
  )}\n`;

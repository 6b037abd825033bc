import Papa from 'papaparse';
import type { AddedSaleLines, ReadSaleLines, SaleLineRow } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { print, Refused } from '../terminal.ts';
import { textOf } from '../text-file.ts';

export interface ReadSalesOptions {
  collection: string;
  words?: string;
  dates?: 'dmy' | 'mdy';
  currency?: string;
  add?: boolean;
  json?: boolean;
}

const wordsIn = async (path: string) => {
  const { data, meta } = Papa.parse<Record<string, string>>((await textOf(path)).trim(), {
    header: true,
    transformHeader: heading => heading.trim().toLowerCase(),
  });
  const lacking = ['text', 'field', 'meaning'].filter(column => !meta.fields?.includes(column));
  if (lacking.length > 0)
    throw new Refused(`${path} lacks ${lacking.join(', ')}; its columns are column,text,field,meaning.`);
  return data
    .filter(row => row.text?.trim())
    .map(row => ({
      column: row.column?.trim() || '*',
      text: row.text ?? '',
      field: row.field?.trim() ?? '',
      meaning: row.meaning?.trim() ?? '',
    }));
};

const why: Record<string, string> = {
  lot: 'several cars for one price',
  'not a car': 'not a car',
  'no price': 'no price that is certain',
  'no date': 'no date that is certain',
};

const rowLines = ({ line, text, fields, unread, not, outcome }: SaleLineRow): string[] => [
  `line ${line}: ${text}`,
  `  ${Object.entries(fields)
    .map(([field, value]) => `${field}: ${value}`)
    .join(', ')}`,
  ...(unread.length > 0 ? [`  not understood: ${unread.map(one => one.text).join('; ')}`] : []),
  ...(not ? [`  no sale of one car: ${why[not]}`] : []),
  ...(outcome === 'known already' ? ['  recorded already'] : []),
];

const isAdded = (result: ReadSaleLines | AddedSaleLines): result is AddedSaleLines => 'added' in result;

/** `playworn read-sales`: reads sales jotted down one a line, and adds them where that was asked for. */
export const readSales = async (file: string, options: ReadSalesOptions): Promise<void> => {
  const { collection, add, json, dates, currency } = options;
  const text = await textOf(file);
  const words = options.words ? await wordsIn(options.words) : [];
  const result: ReadSaleLines | AddedSaleLines = await withCollection({ collection }, ({ api }) => {
    const input = { text, words, dates, currency };
    return add ? api.sales.addLines(input) : api.sales.readLines(input);
  });
  print(json, result, ({ rows, notes }) => [
    ...rows.flatMap(rowLines),
    ...notes,
    isAdded(result)
      ? `${result.added} added, ${result.known} recorded already, ${result.leftOut} left out`
      : `${rows.length} lines read; ${rows.filter(row => !row.not).length} can be added with --add`,
  ]);
};

import { counted } from '../../../valuation/wording/reader.ts';
import type { AddedSaleLines, ReadSaleLines, SaleLineRow } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { print } from '../terminal.ts';
import { textOf } from '../text-file.ts';
import { wordsIn } from '../words-file.ts';

export interface ReadSalesOptions {
  collection: string;
  words?: string;
  dates?: 'dmy' | 'mdy';
  currency?: string;
  add?: boolean;
  json?: boolean;
}

const why: Record<string, string> = {
  lot: 'several cars for one price',
  'not a car': 'not a car',
  'no price': 'no price that is certain',
  'no date': 'no date that is certain',
};

const rowLines = ({ line, text, fields, unread, not, outcome }: SaleLineRow): string[] => [
  `Line ${line}: ${text}`,
  `  ${Object.entries(fields)
    .map(([field, value]) => `${field}: ${value}`)
    .join(', ')}`,
  ...(unread.length > 0 ? [`  not understood: ${unread.map(one => one.text).join('; ')}`] : []),
  ...(not ? [`  not the sale of one car: ${why[not]}`] : []),
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
      : `${counted(rows.length, 'line')} read; ${rows.filter(row => !row.not).length} can be added with --add`,
  ]);
};

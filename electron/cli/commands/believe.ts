import Papa from 'papaparse';
import type { AddedBeliefs } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { print, Refused } from '../terminal.ts';
import { textOf } from '../text-file.ts';

export interface BelieveOptions {
  collection: string;
  casting?: string;
  series?: string;
  maker?: string;
  variation?: string;
  grade?: string;
  low?: string;
  high?: string;
  currency?: string;
  finish?: string;
  note?: string;
  file?: string;
  json?: boolean;
}

const columns = [
  'maker',
  'series',
  'casting',
  'variation',
  'grade',
  'finish',
  'low',
  'high',
  'currency',
  'note',
] as const;
type Row = Record<(typeof columns)[number], string>;

const rowOf = (given: Partial<Record<string, string>>): Row =>
  Object.fromEntries(columns.map(column => [column, given[column]?.trim() ?? ''])) as Row;

const rowsIn = async (path: string): Promise<Row[]> => {
  const { data, meta } = Papa.parse<Record<string, string>>((await textOf(path)).trim(), {
    header: true,
    transformHeader: heading => heading.trim().toLowerCase(),
    skipEmptyLines: 'greedy',
  });
  const lacking = ['grade', 'low', 'high'].filter(column => !meta.fields?.includes(column));
  if (lacking.length > 0)
    throw new Refused(`${path} lacks ${lacking.join(', ')}; its columns are ${columns.join(', ')}.`);
  if (data.length === 0) throw new Refused(`${path} has no rows.`);
  return data.map(rowOf);
};

/**
 * `playworn believe`: says what cars of a series, a casting or a variation bring, once or as a file of rows.
 */
export const believe = async (options: BelieveOptions): Promise<void> => {
  const { collection, file, json, grade, low, high } = options;
  if (!file && !(grade && low && high))
    throw new Refused(
      'Say --grade, --low and --high, and what for: --casting or --series. Or give a --file.',
    );
  const rows = file ? await rowsIn(file) : [rowOf({ ...options, json: undefined })];
  const result: AddedBeliefs = await withCollection({ collection }, ({ api }) => api.beliefs.add({ rows }));
  const [first] = result.rejected;
  if (first && !file) throw new Refused(`Nothing was saved: ${first.reason}.`);
  print(json, result, ({ added, rejected }) => [
    ...rejected.map(({ row, reason }) => `row ${row + 1} of ${file}: ${reason}`),
    `${added} saved${rejected.length > 0 ? `, ${rejected.length} left out` : ''}`,
  ]);
};

import type { SaleRow } from '../../../electron/api/views.ts';
import { worthText } from '../../components/format.ts';

const shows = ['all', 'doubtful', 'left-out', 'own', 'not-understood'] as const;
export type Show = (typeof shows)[number];

/** Which records are shown; kept in the address. */
export interface SaleFilter {
  casting: number | null;
  variation: number | null;
  source: string;
  finish: string;
  show: Show;
}

const number = (text: string | null): number | null => (text && /^\d+$/.test(text) ? Number(text) : null);

export const readFilter = (query: string): SaleFilter => {
  const params = new URLSearchParams(query);
  return {
    casting: number(params.get('casting')),
    variation: number(params.get('variation')),
    source: params.get('source') ?? '',
    finish: params.get('finish') ?? '',
    show: shows.find(show => show === params.get('show')) ?? 'all',
  };
};

/** The address of a filtered list. */
export const filterQuery = (filter: SaleFilter): string => {
  const params = new URLSearchParams();
  for (const [name, value] of Object.entries(filter))
    if (value !== null && value !== '' && value !== 'all') params.set(name, String(value));
  const text = params.toString();
  return text ? `?${text}` : '';
};

export const isFiltered = (filter: SaleFilter): boolean => filterQuery(filter) !== '';

const isDoubted = ({ state }: SaleRow): boolean => state === 'doubtful' || state === 'set aside';

const fits: Record<Show, (row: SaleRow) => boolean> = {
  all: () => true,
  doubtful: isDoubted,
  'left-out': row => row.state === 'left out',
  own: row => row.own,
  'not-understood': row => row.unread.length > 0,
};

/** The records that fit all but the choice of state; `show` narrows them further. */
const ofFilter = (rows: readonly SaleRow[], { casting, variation, source, finish }: SaleFilter): SaleRow[] =>
  rows.filter(
    row =>
      (casting === null || row.castingId === casting) &&
      (variation === null || row.variationId === variation) &&
      (source === '' || row.source === source) &&
      (finish === '' || row.finishState === finish),
  );

/** The records to show, and how many there would be under each choice of state. */
export const filterSales = (
  rows: readonly SaleRow[],
  filter: SaleFilter,
): { rows: SaleRow[]; counts: Record<Show, number> } => {
  const found = ofFilter(rows, filter);
  return {
    rows: filter.show === 'all' ? found : found.filter(fits[filter.show]),
    counts: {
      all: found.length,
      doubtful: found.filter(fits.doubtful).length,
      'left-out': found.filter(fits['left-out']).length,
      own: found.filter(fits.own).length,
      'not-understood': found.filter(fits['not-understood']).length,
    },
  };
};

const quarter = (sorted: readonly number[], share: number): number =>
  sorted[Math.round((sorted.length - 1) * share)] ?? 0;

const fewest = 4;

/**
 * Why a record is doubted, in a few words: its price among the middle half of what else its casting brought,
 * "12,000 among 95 to 160". Only for doubted records with enough others in the same currency to say so.
 */
export const doubtPhrases = (rows: readonly SaleRow[]): Map<number, string> => {
  const key = (row: SaleRow) => `${row.castingId}/${row.currency}`;
  const prices = new Map<string, number[]>();
  const doubtful = rows.filter(row => row.state === 'doubtful');
  for (const row of doubtful) prices.set(key(row), []);
  for (const row of rows) if (row.state === 'counted') prices.get(key(row))?.push(row.price);
  for (const list of prices.values()) list.sort((a, b) => a - b);
  return new Map(
    doubtful.flatMap(row => {
      const others = prices.get(key(row)) ?? [];
      if (others.length < fewest) return [];
      const [low, high] = [quarter(others, 0.25), quarter(others, 0.75)];
      const text = (minor: number) => worthText(minor, row.currency);
      return [[row.id, `${text(row.price)} among ${text(low)} to ${text(high)}`] as const];
    }),
  );
};

import type { SaleRow } from '../../../electron/api/views.ts';
import { finishStates, type SaleShow, saleShows } from '../../../valuation/words.ts';
import { worthText } from '../../components/format.ts';

/** Which records are shown; kept in the address. */
export interface SaleFilter {
  casting: number | null;
  variation: number | null;
  source: string;
  finish: string;
  show: SaleShow;
}

const number = (text: string | null): number | null => (text && /^\d+$/.test(text) ? Number(text) : null);

export const readFilter = (query: string): SaleFilter => {
  const params = new URLSearchParams(query);
  return {
    casting: number(params.get('casting')),
    variation: number(params.get('variation')),
    source: params.get('source') ?? '',
    finish: params.get('finish') ?? '',
    show: saleShows.find(show => show === params.get('show')) ?? 'all',
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

/** The filter as the service takes it; a finish that is none is none. */
export const servedFilter = ({ casting, variation, source, finish, show }: SaleFilter) => ({
  castingId: casting,
  variationId: variation,
  source,
  finish: finishStates.find(state => state === finish) ?? null,
  show,
});

/**
 * Why a record is doubted, in a few words: its price among the middle half of what else its casting brought,
 * "12,000 among 95 to 160". Undefined where there are not enough others to say so.
 */
export const doubtPhrase = ({ price, currency, among }: Pick<SaleRow, 'price' | 'currency' | 'among'>) =>
  among
    ? `${worthText(price, currency)} among ${worthText(among.low, currency)} to ${worthText(among.high, currency)}`
    : undefined;

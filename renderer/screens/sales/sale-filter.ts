import type { SaleRow } from '../../../electron/api/views.ts';
import type { SaleFilter } from '../../../valuation/reading/list-address.ts';
import { worthText } from '../../components/format.ts';

/** The address of a filtered list. */
export const filterQuery = (filter: SaleFilter): string => {
  const params = new URLSearchParams();
  for (const [name, value] of Object.entries(filter))
    if (value !== null && value !== '' && value !== 'all') params.set(name, String(value));
  const text = params.toString();
  return text ? `?${text}` : '';
};

export const isFiltered = (filter: SaleFilter): boolean => filterQuery(filter) !== '';

/**
 * Why a record is doubted, in a few words: its price among the middle half of what else its casting brought,
 * "12,000 among 95 to 160". Undefined where there are not enough others to say so.
 */
export const doubtPhrase = ({ price, currency, among }: Pick<SaleRow, 'price' | 'currency' | 'among'>) =>
  among
    ? `${worthText(price, currency)} among ${worthText(among.low, currency)} to ${worthText(among.high, currency)}`
    : undefined;

import type { DecideFilter } from '../../../../valuation/reading/list-address.ts';
import type { GridSort } from '../../../components/data-grid/types.ts';
import { addLook } from '../../../components/saved-views/list-look.ts';

export type Filter = DecideFilter;

export const everything: Filter = {
  lot: null,
  finish: [],
  below: null,
  not: [],
  recommendation: [],
  decided: null,
};

/** Writes a filter for the address: only what narrows, so that everything is an empty text. */
export const writeFilter = ({ lot, finish, below, not, recommendation, decided }: Filter): string => {
  const parts: [string, string][] = [];
  if (lot !== null) parts.push(['lot', String(lot)]);
  if (finish.length > 0) parts.push(['finish', finish.join(',')]);
  if (below !== null) parts.push(['below', String(below)]);
  if (not.length > 0) parts.push(['not', not.join(',')]);
  if (recommendation.length > 0) parts.push(['recommendation', recommendation.join(',')]);
  if (decided !== null) parts.push(['decided', decided]);
  return parts.map(([key, value]) => `${key}=${encodeURIComponent(value).replaceAll('%2C', ',')}`).join('&');
};

/** What the list shows, its order with it, as an address would have it. */
export const seenQuery = (filter: Filter, sort: GridSort | null): string =>
  addLook(new URLSearchParams(writeFilter(filter)), { saved: null, sort, columns: null }).toString();

/** Says several words as one would: "scarce or rare", "original, restored or stripped". */
export const orList = (words: readonly string[]): string => {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} or ${last}`;
};

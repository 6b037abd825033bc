import type { ListOrder, ListWindow } from '../views.ts';
import { BoundedMap, slot } from './cache.ts';
import { placesInOrder, rankedTexts } from './ranks.ts';
import type { Session } from './session.ts';

/** What a list is sorted by: a number or a text; null and empty texts come last, whichever way it is sorted. */
export type SortValue = string | number | null;

type Sort = NonNullable<ListOrder['sort']>;

/** A list as it stands unsorted, what it can be sorted by, and what of it is shown. */
export interface ListOf<Item extends { id: number }> {
  name: string;
  /** By what its items stand sorted as they are given. */
  stands?: Sort;
  /** The time of the cache when its items began to be read. */
  at: number;
  /** True where it is sorted and filtered by values of before, until the new ones are there. */
  isOfBefore?: boolean;
  items: readonly Item[];
  /** What a column sorts by; undefined for one that does not sort. */
  sortsBy: (columnId: string) => ((item: Item) => SortValue) | undefined;
  /** What is shown, as a text that tells one filter from another, and the filter itself. */
  filter: string;
  passes: (item: Item) => boolean;
}

interface Held {
  /** When it was put in order. */
  version: string;
  /** The ids in their order; of rows that keep their places also those that are gone, should they come back. */
  ids: number[];
  /** Its texts as they were sorted, so that sorting again has little to do. */
  texts: string[];
  filter: string;
  shown: readonly { id: number }[];
}

/** So many orders of lists are held at once. */
const mostHeld = 8;
const heldOrders = slot(() => new BoundedMap<string, Held>(mostHeld));

/**
 * The items sorted, equal ones as they stood, and those of which nothing is known last; a column holds numbers or texts,
 * never both.
 */
const sorted = <Item>(
  items: readonly Item[],
  sortsBy: (item: Item) => SortValue,
  { descending, locale, texts: known }: { descending: boolean; locale: string; texts: string[] },
): { items: Item[]; texts: string[] } => {
  const keys = new Float64Array(items.length).fill(Number.NaN);
  const written: string[] = [];
  const places: number[] = [];
  for (let place = 0; place < items.length; place += 1) {
    const value = sortsBy(items[place]!);
    if (typeof value === 'number') keys[place] = value;
    else if (value) {
      written.push(value);
      places.push(place);
    }
  }
  const { ranks, texts } = rankedTexts(written, known, locale);
  for (let i = 0; i < places.length; i += 1) keys[places[i]!] = ranks[i]!;
  return { items: placesInOrder(keys, descending).map(place => items[place]!), texts };
};

/** The items in the order that their ids had; those that are new come last, as they are given. */
const inPlaces = <Item extends { id: number }>(
  items: readonly Item[],
  ids: readonly number[],
): { items: Item[]; ids: number[] } => {
  const left = new Map(items.map(item => [item.id, item]));
  const found: Item[] = [];
  for (const id of ids) {
    const item = left.get(id);
    if (item) found.push(item);
    left.delete(id);
  }
  return { items: [...found, ...left.values()], ids: [...ids, ...left.keys()] };
};

/**
 * What is shown of a list, in its order. The order is held, so that the next window of it costs little, and put
 * right after an action: rows that keep their places (`since`) stay where they were sorted, others are sorted
 * again.
 */
export const inOrder = async <Item extends { id: number }>(
  session: Session,
  { name, stands, at, isOfBefore = false, items, sortsBy, filter, passes }: ListOf<Item>,
  { sort, since, locale }: ListOrder,
): Promise<readonly Item[]> => {
  const version = `${at} ${await session.today()} ${isOfBefore}`;
  const held = session.cache.of(heldOrders);
  const key = JSON.stringify([name, sort, locale, sort && since]);
  const before = held.get(key);
  if (before?.version === version && before.filter === filter) return before.shown as readonly Item[];
  const value = sort ? sortsBy(sort.columnId) : undefined;
  let order: readonly Item[] = items;
  let ids: number[] = [];
  let texts = before?.texts ?? [];
  if (sort && value) {
    if (before && (since !== '' || before.version === version))
      ({ items: order, ids } = inPlaces(items, before.ids));
    else {
      if (stands?.columnId !== sort.columnId || stands.descending !== sort.descending)
        ({ items: order, texts } = sorted(items, value, { ...sort, locale, texts }));
      ids = order.map(({ id }) => id);
    }
  }
  const shown = order.filter(passes);
  held.set(key, { version, ids, texts, filter, shown });
  return shown;
};

/**
 * The rows of a range of what is shown, in its order; `rowsOf` reads those of ids, in any order. Ids of which it
 * knows nothing any longer have no row.
 */
export const windowOf = async <Row>(
  shown: readonly { id: number }[],
  { from, count }: { from: number; count: number },
  rowsOf: (ids: number[]) => Promise<readonly Row[]>,
  idOf: (row: Row) => number,
): Promise<ListWindow<Row>> => {
  const ids = shown.slice(from, from + count).map(({ id }) => id);
  const byId = new Map((await rowsOf(ids)).map(row => [idOf(row), row]));
  return { total: shown.length, from, rows: ids.flatMap(id => byId.get(id) ?? []) };
};

/** Where a row of a list stands; null where it is not shown. */
export const placeIn = (shown: readonly { id: number }[], wanted: number): number | null => {
  const found = shown.findIndex(({ id }) => id === wanted);
  return found < 0 ? null : found;
};

import { type ListLook, lookNames as names } from '../../../valuation/reading/list-address.ts';
import type { GridColumn, GridSort } from '../data-grid/types.ts';

const sortText = (sort: GridSort | null): string =>
  sort === null ? 'none' : `${sort.descending ? '-' : ''}${sort.columnId}`;

/** Writes a look into an address's query, beside the filter that stands there. */
export const addLook = (query: URLSearchParams, { saved, sort, columns }: ListLook): URLSearchParams => {
  if (sort !== undefined) query.set(names.sort, sortText(sort));
  if (columns !== null) query.set(names.columns, columns.join(','));
  // A view goes by its name as long as anything of it is left.
  if (saved !== null && query.size > 0) query.set(names.saved, saved);
  return query;
};

/** What of an address is saved as a view: all but the name of the view. */
export const viewQuery = (search: string): string => {
  const query = new URLSearchParams(search);
  query.delete(names.saved);
  query.sort();
  return query.toString();
};

/** The columns that are shown, those that are pinned always and first; `unknown` are ids that name none. */
export const arrange = <Row>(
  columns: readonly GridColumn<Row>[],
  chosen: readonly string[] | null,
): { shown: GridColumn<Row>[]; unknown: string[] } => {
  if (chosen === null) return { shown: [...columns], unknown: [] };
  const known = new Map(columns.map(column => [column.id, column]));
  const free = [...new Set(chosen)].flatMap(id => known.get(id) ?? []).filter(({ pinned }) => !pinned);
  return {
    shown: free.length === 0 ? [...columns] : [...columns.filter(({ pinned }) => pinned), ...free],
    unknown: chosen.filter(id => !known.has(id)),
  };
};

/** The ids with one of them at another place among them. */
export const moved = (ids: readonly string[], id: string, to: number): string[] => {
  const others = ids.filter(other => other !== id);
  return [...others.slice(0, to), id, ...others.slice(to)];
};

/** What of a view's own columns and order is not known here any more, in words. */
export const unknownOf = <Row>(columns: readonly GridColumn<Row>[], { sort, columns: chosen }: ListLook) => {
  const isKnown = (id: string) => columns.some(column => column.id === id);
  const { unknown } = arrange(columns, chosen);
  return [
    ...unknown.map(id => `the column “${id}”`),
    ...(sort && !isKnown(sort.columnId) ? [`sorting by “${sort.columnId}”`] : []),
  ];
};

/** The order in force: the usual one where its column is not shown, none where that of the usual one is not either. */
export const sortOf = <Row>(
  shown: readonly GridColumn<Row>[],
  sort: ListLook['sort'],
  usual: GridSort | null,
): GridSort | null => {
  const wanted = sort === undefined ? usual : sort;
  const stands = (order: GridSort | null) => order && shown.some(({ id }) => id === order.columnId);
  if (stands(wanted)) return wanted;
  return wanted && stands(usual) ? usual : null;
};

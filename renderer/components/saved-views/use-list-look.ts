import { useMemo } from 'react';
import { useLocation, useSearch } from 'wouter';
import type { ViewedList } from '../../../electron/api/lists/saved-views.ts';
import { type ListLook, lookIn } from '../../../valuation/reading/list-address.ts';
import type { GridColumn, GridSort } from '../data-grid/types.ts';
import { addLook, arrange, moved, sortOf } from './list-look.ts';

/** Order and columns of a list as its address says them, and how both are changed; `usual` is how it begins. */
export const useListLook = <Row>(
  list: ViewedList,
  columns: readonly GridColumn<Row>[],
  usual: GridSort | null,
) => {
  const search = useSearch();
  const [, navigate] = useLocation();
  const look = useMemo(() => lookIn(search), [search]);
  const { shown } = useMemo(() => arrange(columns, look.columns), [columns, look.columns]);
  const change = (next: Partial<ListLook>) => {
    const query = new URLSearchParams(search);
    for (const name of ['saved', 'sort', 'columns']) query.delete(name);
    const text = addLook(query, { ...look, ...next }).toString();
    navigate(text ? `~/${list}?${text}` : `~/${list}`, { replace: true });
  };
  const ids = shown.map(({ id }) => id);
  return {
    look,
    shown,
    columns,
    sortedBy: useMemo(() => sortOf(shown, look.sort, usual), [shown, look.sort, usual]),
    onSort: (sort: GridSort | null) => change({ sort }),
    onMoveColumn: (id: string, to: number) => change({ columns: moved(ids, id, to) }),
    show: (id: string, on: boolean) =>
      change({ columns: on ? [...ids, id] : ids.filter(other => other !== id) }),
    showUsual: () => change({ columns: null }),
  };
};

export type ListLookState<Row> = ReturnType<typeof useListLook<Row>>;

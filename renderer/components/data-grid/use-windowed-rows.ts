import { keepPreviousData, useQuery, useQueryClient } from '@tanstack/react-query';
import { useCallback, useMemo, useRef, useState } from 'react';
import type { ListOrder, ListWindow } from '../../../electron/api/views.ts';
import { readerLocale } from '../format.ts';
import type { GridSort, Sight, WindowedRows } from './types.ts';

/** A list that the service holds in its order, and of which it gives rows by their places. */
export interface ServedList<Row> {
  /** Tells this list from others, and each filter and order of it; stable while those are. */
  key: readonly unknown[];
  read: (from: number, count: number) => Promise<ListWindow<Row>>;
  /** Where a row stands; null where it is not shown. */
  place?: (rowId: string) => Promise<number | null>;
}

/** Windows begin and end at multiples of this, so that scrolling asks seldom and finds again what it has seen. */
const step = 32;
/** So many rows are fetched at once where a whole range is wanted. */
const most = 2000;
/** Rows out of sight are let go after this, so that scrolling through a large list does not fill the memory. */
const forgotten = 30_000;

const nothing: never[] = [];

const windowOf = ({ first, last }: Pick<Sight, 'first' | 'last'>) => {
  const from = Math.max(0, Math.floor(first / step) - 1) * step;
  return { from, count: (Math.ceil((last + 1) / step) + 1) * step - from };
};

/** Puts windows of rows into a list of their places. */
const laid = <Row>(total: number, windows: readonly (ListWindow<Row> | undefined)[]): Row[] => {
  const rows = new Array<Row>(total);
  for (const window of windows)
    window?.rows.forEach((row, offset) => {
      if (window.from + offset < total) rows[window.from + offset] = row;
    });
  return rows;
};

/**
 * Reads the rows of a list as they come into sight, and that under the cursor. While rows of another filter or
 * order come, those that were there stay. The whole list is never here.
 */
export const useWindowedRows = <Row>(
  { key, read, place }: ServedList<Row>,
  startAt: string | null = null,
): WindowedRows<Row> & { error: Error | null; retry: () => void } => {
  const client = useQueryClient();
  const [sight, setSight] = useState<Sight>({ first: 0, last: step, focus: 0 });
  const options = { gcTime: forgotten, placeholderData: keepPreviousData };
  const { from, count } = windowOf(sight);
  const window = useQuery({
    queryKey: [...key, 'rows', from, count],
    queryFn: () => read(from, count),
    ...options,
  });
  const isAside = sight.focus >= 0 && (sight.focus < from || sight.focus >= from + count);
  const cursor = useQuery({
    queryKey: [...key, 'rows', sight.focus, 1],
    queryFn: () => read(sight.focus, 1),
    enabled: isAside,
    gcTime: forgotten,
  });
  const started = useQuery({
    queryKey: [...key, 'place', startAt],
    queryFn: () => (startAt === null || !place ? null : place(startAt)),
    enabled: startAt !== null && place !== undefined,
  });
  const { data } = window;
  const aside = isAside ? cursor.data : undefined;
  const rows = useMemo(() => laid(data?.total ?? 0, [aside, data]), [data, aside]);
  const see = useCallback(
    (next: Sight) =>
      setSight(before =>
        before.first === next.first && before.last === next.last && before.focus === next.focus
          ? before
          : next,
      ),
    [],
  );
  const latest = useRef({ key, read });
  latest.current = { key, read };
  const load = useCallback(
    async (first: number, last: number) => {
      const { key: of, read: readNow } = latest.current;
      const windows: ListWindow<Row>[] = [];
      for (let at = first; at <= last; at += most) {
        const size = Math.min(most, last - at + 1);
        windows.push(
          await client.fetchQuery({
            queryKey: [...of, 'rows', at, size],
            queryFn: () => readNow(at, size),
            gcTime: 0,
          }),
        );
      }
      return laid(windows.at(-1)?.total ?? 0, windows);
    },
    [client],
  );
  return {
    rows,
    here: data?.rows ?? nothing,
    atCursor: rows[sight.focus] ?? null,
    isFirst: !data,
    isComing: window.isPlaceholderData,
    startRow: started.data ?? -1,
    isPlacing: started.isLoading,
    see,
    load,
    error: window.error ?? started.error,
    retry: () => void window.refetch(),
  };
};

let sortings = 0;

/**
 * How a list is to be ordered. Where rows keep their places (`holds`), those count that they had when its
 * reader last sorted it.
 */
export const useListOrder = (sort: GridSort | null, holds: boolean): ListOrder => {
  const columnId = sort?.columnId ?? null;
  const descending = sort?.descending ?? false;
  // A new name whenever it is sorted otherwise.
  return useMemo(() => {
    sortings += 1;
    return {
      sort: columnId === null ? null : { columnId, descending },
      since: holds ? `${performance.timeOrigin}/${sortings}` : '',
      locale: readerLocale(),
    };
  }, [columnId, descending, holds]);
};

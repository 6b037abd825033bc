import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useCallback, useMemo, useRef, useState } from 'react';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import { advisesAnything } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import type { GridSort, RowRange } from '../../../components/data-grid/types.ts';
import { useListOrder, useWindowedRows } from '../../../components/data-grid/use-windowed-rows.ts';
import { readerLocale } from '../../../components/format.ts';
import { showNotice } from '../../../components/notices/undo-notice.tsx';
import type { Filter } from '../filter/filter.ts';

/** So many cars are worked on at once: as many as a season takes. */
export const mostAtOnce = 10_000;

const gainFirst: GridSort = { columnId: 'gain', descending: true };

/**
 * The cars as they come into sight, in the order that their reader chose, and which of them are selected.
 * `seasonOf` tells another season from the one before, by which they can be sorted.
 */
export const useDecideList = (filter: Filter, startAt: string | null, seasonOf: number) => {
  const [sort, setSort] = useState<GridSort | null>(gainFirst);
  const order = useListOrder(sort, false);
  const bySeason = sort?.columnId === 'season' ? seasonOf : 0;
  const list = useMemo(() => ({ filter, order }), [filter, order]);
  const windowed = useWindowedRows<DecisionSummary>(
    {
      key: ['decide', list, bySeason],
      read: (from, count) => api.decisions.window({ ...list, from, count }),
      place: id => api.decisions.place({ ...list, id: Number(id) }),
    },
    startAt,
  );
  const [range, setRange] = useState<RowRange | null>(null);
  const { first, last } = range ?? { first: 0, last: -1 };
  const count = last - first + 1;
  const here = windowed.rows.slice(first, last + 1).flat();
  const { data: chosen } = useQuery({
    queryKey: ['decide', list, bySeason, 'chosen', range],
    queryFn: () => api.decisions.chosen({ ...list, from: first, count }),
    enabled: count > here.length,
    placeholderData: keepPreviousData,
    gcTime: 0,
  });
  const now = useRef({ range, windowed });
  now.current = { range, windowed };
  const toldRange = useCallback((next: RowRange | null) => {
    now.current.range = next;
    setRange(next);
  }, []);
  /** Works with the selected cars: at once where all are here, else when the service has given them. */
  const withSelected = useCallback(async (work: (cars: readonly DecisionSummary[]) => void) => {
    const { range: of, windowed: from } = now.current;
    if (!of) return;
    const size = of.last - of.first + 1;
    if (size > mostAtOnce) {
      const most = mostAtOnce.toLocaleString(readerLocale());
      showNotice(`Up to ${most} cars can be worked on at once. Select fewer, or filter them first.`);
      return;
    }
    const cars = from.rows.slice(of.first, of.last + 1).flat();
    work(cars.length === size ? cars : (await from.load(of.first, of.last)).flat());
  }, []);
  return {
    windowed,
    sort,
    setSort,
    setRange: toldRange,
    withSelected,
    /** For how many of the selected cars something is recommended. */
    advised:
      count > here.length
        ? (chosen?.advised ?? 0)
        : here.filter(({ car }) => advisesAnything(car.recommendation)).length,
  };
};

export type DecideListState = ReturnType<typeof useDecideList>;

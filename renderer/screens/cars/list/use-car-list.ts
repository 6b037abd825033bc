import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useCallback, useMemo, useRef, useState } from 'react';
import type { CarRow } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import type { GridSort, RowRange } from '../../../components/data-grid/types.ts';
import { useListOrder, useWindowedRows } from '../../../components/data-grid/use-windowed-rows.ts';
import { untilWorkedOut, useWhenWorkedOut } from '../../../components/layout/of-before.tsx';
import { type Ticks, useTicked } from './ticks.ts';
import type { ListPlace } from './use-list-address.ts';
import { wallSorts } from './wall-order.ts';

/** The cars as they come into sight, what they come to, and which of them are chosen. */
export const useCarList = ({ filter, wall, order }: ListPlace, sort: GridSort | null, ticks: Ticks) => {
  const listOrder = useListOrder(wall ? wallSorts[order] : sort, false);
  const list = useMemo(() => ({ filter, wall, order: listOrder }), [filter, wall, listOrder]);
  const windowed = useWindowedRows<CarRow>({
    key: ['cars', list],
    read: (from, count) => api.cars.window({ ...list, from, count }),
  });
  const ticked = useTicked(ticks);
  const [range, setRange] = useState<RowRange | null>(null);
  // Ticks count; without any, a range of several rows does. Only what is shown is changed.
  const of =
    ticked.size > 0
      ? { ids: [...ticked] }
      : range && range.last > range.first
        ? { from: range.first, count: range.last - range.first + 1 }
        : null;
  const { data: chosen, isPlaceholderData } = useQuery({
    queryKey: ['cars', list, 'chosen', ticked.size > 0 ? ticks.version : range],
    queryFn: () => of && api.cars.chosen({ ...list, of }),
    enabled: of !== null && !wall,
    placeholderData: keepPreviousData,
    gcTime: 0,
  });
  const now = useRef({ list, range, rows: windowed.rows });
  now.current = { list, range, rows: windowed.rows };
  const toldRange = useCallback((next: RowRange | null) => {
    now.current.range = next;
    setRange(next);
  }, []);
  /** Ticks the selected cars, or clears them; at once where they are here. */
  const tickRange = useCallback(async () => {
    const { list: asked, range: of, rows } = now.current;
    if (!of) return;
    const here = rows.slice(of.first, of.last + 1).flatMap(row => row.id);
    const count = of.last - of.first + 1;
    ticks.toggle(
      here.length === count ? here : (await api.cars.chosen({ ...asked, of: { from: of.first, count } })).ids,
    );
  }, [ticks]);
  return {
    windowed,
    chosen: of ? (chosen ?? null) : null,
    /** The chosen cars are still those of before. */
    isChoosing: isPlaceholderData,
    setRange: toldRange,
    tickRange,
    ticked,
  };
};

/** What the list comes to, and how many cars each choice of its filter would show; may come after its rows. */
export const useCarFacts = (filter: ListPlace['filter']) => {
  const facts = useQuery({
    queryKey: ['cars', 'facts', filter],
    queryFn: () => api.cars.facts(filter),
    placeholderData: keepPreviousData,
    refetchInterval: untilWorkedOut,
  });
  useWhenWorkedOut('cars', facts.data?.workingOut);
  return facts;
};

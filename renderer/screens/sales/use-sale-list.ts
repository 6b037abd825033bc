import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { useSearch } from 'wouter';
import type { ChosenSales, SaleRow } from '../../../electron/api/views.ts';
import { type SaleFilter, saleFilterIn, servedSaleFilter } from '../../../valuation/reading/list-address.ts';
import { api } from '../../api/client.ts';
import type { GridSort, RowRange } from '../../components/data-grid/types.ts';
import { useListOrder, useWindowedRows } from '../../components/data-grid/use-windowed-rows.ts';

/** Which records the address asks for. */
export const useSaleFilter = (): SaleFilter => {
  const query = useSearch();
  return useMemo(() => saleFilterIn(query), [query]);
};

const chosenOf = (row: SaleRow): ChosenSales => ({
  ids: [row.id],
  leftOut: row.excluded ? 1 : 0,
  own: row.own ? 1 : 0,
});

/** The rows of the list as they come into sight, and what is chosen of them. */
export const useSaleList = (filter: SaleFilter, sort: GridSort | null, startAt: string | null) => {
  const order = useListOrder(sort, true);
  const list = useMemo(() => ({ filter: servedSaleFilter(filter), order }), [filter, order]);
  const windowed = useWindowedRows<SaleRow>(
    {
      key: ['sales', list],
      read: (from, count) => api.sales.window({ ...list, from, count }),
      place: id => api.sales.place({ ...list, id: Number(id) }),
    },
    startAt,
  );
  const [range, setRange] = useState<RowRange | null>(null);
  const isMany = range !== null && range.last > range.first;
  const many = useQuery({
    queryKey: ['sales', list, 'chosen', range],
    queryFn: () =>
      range && api.sales.chosen({ ...list, from: range.first, count: range.last - range.first + 1 }),
    enabled: isMany,
    gcTime: 0,
  });
  const one = range ? windowed.rows[range.first] : undefined;
  const chosen = isMany ? (many.data ?? null) : one ? chosenOf(one) : null;
  return { windowed, setRange, chosen, list };
};

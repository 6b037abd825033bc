import { useCallback, useEffect, useMemo } from 'react';
import { useLocation, useSearch } from 'wouter';
import { type CarFilter, carFilterIn, lookIn } from '../../../../valuation/reading/list-address.ts';
import { addLook } from '../../../components/saved-views/list-look.ts';
import { queryOf } from './car-filter.ts';
import { rememberList } from './last-list.ts';
import { isWallOrder, type WallOrder } from './wall-order.ts';

export interface ListPlace {
  filter: CarFilter;
  wall: boolean;
  order: WallOrder;
}

/** Which cars are shown and how stands in the address, so that it can be linked to, gone back to and kept. */
export const useListAddress = () => {
  const search = useSearch();
  const [, navigate] = useLocation();
  useEffect(() => rememberList(search), [search]);
  const place = useMemo((): ListPlace => {
    const query = new URLSearchParams(search);
    const order = query.get('order');
    return {
      filter: carFilterIn(search),
      wall: query.get('view') === 'wall',
      order: isWallOrder(order) ? order : 'number',
    };
  }, [search]);
  const go = useCallback(
    (next: Partial<ListPlace>) => {
      const { filter, wall, order } = { ...place, ...next };
      const query = queryOf(filter);
      if (wall) query.set('view', 'wall');
      if (wall && order !== 'number') query.set('order', order);
      const text = addLook(query, lookIn(search)).toString();
      navigate(text ? `~/cars?${text}` : '~/cars', { replace: true });
    },
    [place, search, navigate],
  );
  return { ...place, go };
};

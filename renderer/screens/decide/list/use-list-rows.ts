import { useMemo, useRef } from 'react';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { Season } from '../season/season.ts';
import type { ListRow } from './columns.tsx';

/**
 * The rows of the list; one whose car and standing are as they were stays the same, so that it is
 * not drawn again.
 */
export const useListRows = (cars: readonly DecisionSummary[], standings: Season['standings']): ListRow[] => {
  const kept = useRef(new Map<number, ListRow>());
  return useMemo(() => {
    const rows = cars.map(weighed => {
      const standing = standings.get(weighed.car.id) ?? null;
      const before = kept.current.get(weighed.car.id);
      return before?.weighed === weighed && before.standing === standing ? before : { weighed, standing };
    });
    kept.current = new Map(rows.map(row => [row.weighed.car.id, row]));
    return rows;
  }, [cars, standings]);
};

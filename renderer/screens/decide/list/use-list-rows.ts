import { useMemo, useRef } from 'react';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import type { WindowedRows } from '../../../components/data-grid/types.ts';
import type { Season } from '../season/season.ts';
import type { ListRow } from './columns.tsx';

/**
 * The rows of the list with how each car stands to the season; one whose car and standing are as they were
 * stays the same, so that it is not drawn again.
 */
export const useListRows = (
  windowed: WindowedRows<DecisionSummary>,
  standings: Season['standings'],
): WindowedRows<ListRow> => {
  const { rows, here, atCursor } = windowed;
  const before = useRef(new Map<number, ListRow>());
  const made = useMemo(() => {
    const known = new Map<number, ListRow>();
    const rowOf = (weighed: DecisionSummary): ListRow => {
      const { id } = weighed.car;
      const standing = standings.get(id) ?? null;
      const was = known.get(id) ?? before.current.get(id);
      const row = was?.weighed === weighed && was.standing === standing ? was : { weighed, standing };
      known.set(id, row);
      return row;
    };
    // Places whose cars are not here stay empty.
    const all = { rows: rows.map(rowOf), here: here.map(rowOf), atCursor: atCursor && rowOf(atCursor) };
    before.current = known;
    return all;
  }, [rows, here, atCursor, standings]);
  return {
    ...windowed,
    ...made,
    load: async (first, last) =>
      (await windowed.load(first, last)).map(weighed => ({
        weighed,
        standing: standings.get(weighed.car.id) ?? null,
      })),
  };
};

import { useEffect, useState } from 'react';
import type { DataGridProps, GridColumn } from './types.ts';

/** A heading that is dragged onto another takes its place; pinned ones stay. */
export const useColumnDrag = <Row>(
  columns: readonly GridColumn<Row>[],
  onMoveColumn: DataGridProps<Row>['onMoveColumn'],
) => {
  const [drag, setDrag] = useState<{ from: number; over: number } | null>(null);
  const under = drag !== null;
  useEffect(() => {
    if (!under) return;
    const end = () => setDrag(null);
    window.addEventListener('mouseup', end);
    return () => window.removeEventListener('mouseup', end);
  }, [under]);
  const free = (index: number) => onMoveColumn !== undefined && !columns[index]?.pinned;
  return {
    /** The heading on which it would be dropped, or null. */
    over: drag && drag.over !== drag.from ? drag.over : null,
    begin: (index: number) => (free(index) ? setDrag({ from: index, over: index }) : undefined),
    enter: (index: number) => (drag && free(index) ? setDrag({ ...drag, over: index }) : undefined),
    drop: (index: number) => {
      const moved = drag && columns[drag.from];
      if (moved && drag.from !== index && free(index)) onMoveColumn?.(moved.id, index);
      setDrag(null);
    },
  };
};

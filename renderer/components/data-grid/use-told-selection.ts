import { useLayoutEffect, useRef } from 'react';
import type { Box } from './cursor.ts';
import type { DataGridProps } from './types.ts';

/** Tells a screen what is selected and where the cursor stands, whenever that is another. */
export const useToldSelection = <Row extends object>(
  rows: readonly Row[],
  { box, row }: { box: Box | null; row: number },
  props: DataGridProps<Row>,
) => {
  const { windowed } = props;
  const [first, last] = box ? [box.top, Math.min(box.bottom, rows.length - 1)] : [0, -1];
  // Of a list that is here only in part, its screen asks the service for what a range holds.
  const selectedIds =
    windowed || !box
      ? ''
      : rows
          .slice(first, last + 1)
          .map(props.getRowId)
          .join('\n');
  const told = useRef(props);
  told.current = props;
  // Before the next key can come: what it does to the selection must do it to this one.
  useLayoutEffect(() => {
    told.current.onSelectionChange?.(selectedIds === '' ? [] : selectedIds.split('\n'));
  }, [selectedIds]);
  useLayoutEffect(() => {
    told.current.onRangeChange?.(last < first ? null : { first, last });
  }, [first, last]);
  const cursorRow = rows[row];
  // Until the row is here on which the cursor stands, that stands of which was told last.
  const isComing = cursorRow === undefined && row >= 0 && row < rows.length;
  const toldId = useRef<string | null>(null);
  const cursorId = cursorRow !== undefined ? props.getRowId(cursorRow) : isComing ? toldId.current : null;
  toldId.current = cursorId;
  useLayoutEffect(() => {
    told.current.onCursorChange?.(cursorId);
  }, [cursorId]);
};

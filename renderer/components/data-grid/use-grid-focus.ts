import { useCallback, useImperativeHandle, useLayoutEffect, useRef } from 'react';
import { inField } from '../keys/press-again.ts';
import type { DataGridProps } from './types.ts';

/**
 * The focus of a grid: it can be given, and is taken when the grid appears where it is what a screen is
 * about. With it, what else a screen can ask of its grid.
 */
export const useGridFocus = <Row extends object>(
  rows: readonly Row[],
  isShown: boolean,
  { autoFocus = false, handle, getRowId }: DataGridProps<Row>,
) => {
  const gridRef = useRef<HTMLTableElement>(null);
  const focusGrid = useCallback(() => gridRef.current?.focus({ preventScroll: true }), []);
  useLayoutEffect(() => {
    const { activeElement } = document;
    const inUse = inField(activeElement) || activeElement instanceof HTMLInputElement;
    if (autoFocus && isShown && !inUse) focusGrid();
  }, [autoFocus, isShown, focusGrid]);
  useImperativeHandle(
    handle,
    () => ({
      focus: focusGrid,
      toTop: () => gridRef.current?.parentElement?.scrollTo({ top: 0 }),
      // Of a list that is read by and by, a place whose row is not here yet holds nothing.
      rowIds: () => rows.flatMap(row => (row ? [getRowId(row)] : [])),
    }),
    [focusGrid, rows, getRowId],
  );
  return { gridRef, focusGrid };
};

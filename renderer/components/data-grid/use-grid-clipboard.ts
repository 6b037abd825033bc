import { useEffect, useRef } from 'react';
import { fromTsv, toTsv } from './clipboard.ts';
import { copyBox, planClear, planPaste } from './plan-changes.ts';
import type { DataGridProps } from './types.ts';
import type { Grid } from './use-grid.ts';

/**
 * Copies, cuts and pastes the range while the grid has the focus; the page's own selection stays out of it.
 */
export const useGridClipboard = <Row extends object>(
  { gridRef, editing, box, content, writes }: Grid<Row>,
  { onEdit, onAppend }: DataGridProps<Row>,
): void => {
  const act = (event: ClipboardEvent) => {
    if (document.activeElement !== gridRef.current || editing || !box || !event.clipboardData) return;
    if (event.type === 'paste') {
      if (!onEdit && !onAppend) return;
      event.preventDefault();
      const copied = fromTsv(event.clipboardData.getData('text/plain'));
      return writes.apply(planPaste(content, box, copied, onAppend !== undefined));
    }
    event.preventDefault();
    event.clipboardData.setData('text/plain', toTsv(copyBox(content, box)));
    if (event.type === 'cut' && onEdit) writes.apply(planClear(content, box));
  };
  const latest = useRef(act);
  latest.current = act;
  useEffect(() => {
    const listen = (event: ClipboardEvent) => latest.current(event);
    const types = ['copy', 'cut', 'paste'] as const;
    for (const type of types) document.addEventListener(type, listen);
    return () => {
      for (const type of types) document.removeEventListener(type, listen);
    };
  }, []);
};

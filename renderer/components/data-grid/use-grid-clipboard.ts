import { useEffect, useRef } from 'react';
import { fromTsv, toTsv } from './clipboard.ts';
import type { Box } from './cursor.ts';
import { copyBox, planClear, planPaste } from './plan-changes.ts';
import type { DataGridProps } from './types.ts';
import type { Grid } from './use-grid.ts';

/**
 * Copies, cuts and pastes the range while the grid has the focus; the page's own selection stays out of it.
 */
export const useGridClipboard = <Row extends object>(
  { gridRef, editing, box, withRange }: Grid<Row>,
  { onEdit, onAppend }: DataGridProps<Row>,
): void => {
  const fetched = useRef<string | null>(null);
  /** The clipboard is open only while a copy is asked for, so rows that had to be fetched ask once more. */
  const copyLater = async (range: Box) => {
    fetched.current = toTsv(copyBox(await withRange.fetched(range), range));
    document.execCommand('copy');
    fetched.current = null;
  };
  const act = (event: ClipboardEvent) => {
    if (document.activeElement !== gridRef.current || editing || !box || !event.clipboardData) return;
    if (event.type === 'paste') {
      if (!onEdit && !onAppend) return;
      event.preventDefault();
      const copied = fromTsv(event.clipboardData.getData('text/plain'));
      const bottom = Math.max(box.bottom, box.top + copied.length - 1);
      withRange.change({ top: box.top, bottom }, content =>
        planPaste(content, box, copied, onAppend !== undefined),
      );
      return;
    }
    event.preventDefault();
    if (fetched.current !== null) {
      event.clipboardData.setData('text/plain', fetched.current);
      return;
    }
    const here = withRange.here(box);
    if (here) event.clipboardData.setData('text/plain', toTsv(copyBox(here, box)));
    else void copyLater(box);
    if (event.type === 'cut' && onEdit) withRange.change(box, content => planClear(content, box));
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

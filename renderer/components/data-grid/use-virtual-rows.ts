import { defaultRangeExtractor, type Range, useVirtualizer } from '@tanstack/react-virtual';
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';

/** So many rows are drawn beyond those in sight, above and below. */
export const overscan = 8;

type Sight = Pick<Range, 'startIndex' | 'endIndex'>;

/** True where most of what is in sight was not in sight before. */
const isLeap = (before: Sight | null, { startIndex, endIndex }: Sight): boolean => {
  if (!before) return true;
  const stayed = Math.min(before.endIndex, endIndex) - Math.max(before.startIndex, startIndex) + 1;
  return stayed * 2 < endIndex - startIndex + 1;
};

/**
 * Which rows of a scrolled list are drawn, and where: those in sight and some beyond them, so that scrolling on finds
 * them there. After a leap those in sight come first and the others with the next frame, as all at once would hold the
 * page up. A row that the cursor was sent to is there before the list has scrolled to it, for what is typed at once.
 */
export const useVirtualRows = ({
  count,
  scroller,
  rowHeight,
  head,
  cursorRow,
}: {
  count: number;
  scroller: RefObject<HTMLElement | null>;
  rowHeight: number;
  /** How much of the list's height its headings cover. */
  head: number;
  cursorRow: number;
}) => {
  const drawn = useRef<Sight | null>(null);
  const [turn, setTurn] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another turn draws the others
  const rangeExtractor = useCallback(
    (range: Range): number[] => {
      const around = isLeap(drawn.current, range) ? 0 : overscan;
      const rows = defaultRangeExtractor({ ...range, overscan: around });
      return cursorRow < 0 || cursorRow >= range.count || rows.includes(cursorRow)
        ? rows
        : [...rows, cursorRow].sort((a, b) => a - b);
    },
    [cursorRow, turn],
  );
  const virtual = useVirtualizer({
    count,
    getScrollElement: () => scroller.current,
    estimateSize: () => rowHeight,
    rangeExtractor,
    scrollPaddingStart: head,
    scrollMargin: 0,
  });
  const items = virtual.getVirtualItems();
  const { range: inSight } = virtual;
  const [first, last] = [inSight?.startIndex, inSight?.endIndex];
  useEffect(() => {
    if (first === undefined || last === undefined) return;
    const now = { startIndex: first, endIndex: last };
    const hasLeapt = isLeap(drawn.current, now);
    drawn.current = now;
    if (!hasLeapt) return;
    const frame = requestAnimationFrame(() => setTurn(before => before + 1));
    return () => cancelAnimationFrame(frame);
  }, [first, last]);
  return { virtual, items, inSight };
};

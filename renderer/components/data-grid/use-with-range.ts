import type { GridContent } from './plan-changes.ts';
import type { DataGridProps } from './types.ts';

/** Works with all rows of a range: at once where they are here, else when the service has given them. */
export const useWithRange = <Row extends object>(
  rows: readonly Row[],
  { columns, getRowId, windowed }: DataGridProps<Row>,
) => {
  const areHere = (first: number, last: number): boolean => {
    for (let row = first; row <= last; row += 1) if (rows[row] === undefined) return false;
    return true;
  };
  return async (
    { top, bottom }: { top: number; bottom: number },
    work: (content: GridContent<Row>) => void,
  ): Promise<void> => {
    const [first, last] = [Math.max(0, top), Math.min(bottom, rows.length - 1)];
    const all = !windowed || areHere(first, last) ? rows : await windowed.load(first, last);
    work({ rows: all, columns, getRowId });
  };
};

export type WithRange<Row> = (
  range: { top: number; bottom: number },
  work: (content: GridContent<Row>) => void,
) => Promise<void>;

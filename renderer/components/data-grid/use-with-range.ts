import { useRef } from 'react';
import { drawn } from '../waiting/drawn.ts';
import type { ChangePlan, GridContent } from './plan-changes.ts';
import type { DataGridProps } from './types.ts';
import type { GridWrites } from './use-grid-writes.ts';

interface Range {
  top: number;
  bottom: number;
}

/**
 * Works with all rows of a range: at once where they are here and nothing is under way, else in turn, when what
 * was asked for before is done and the service has given them.
 */
export const useWithRange = <Row extends object>(
  rows: readonly Row[],
  writes: GridWrites,
  { columns, getRowId, windowed }: DataGridProps<Row>,
) => {
  const latest = useRef({ rows, windowed });
  latest.current = { rows, windowed };
  const here = ({ top, bottom }: Range): GridContent<Row> | null => {
    const { rows: now, windowed: served } = latest.current;
    for (let row = Math.max(0, top); served && row <= Math.min(bottom, now.length - 1); row += 1)
      if (now[row] === undefined) return null;
    return { rows: now, columns, getRowId };
  };
  const fetched = async (range: Range): Promise<GridContent<Row>> => {
    const content = here(range);
    if (content) return content;
    const { rows: now, windowed: served } = latest.current;
    const all = await served?.load(Math.max(0, range.top), Math.min(range.bottom, now.length - 1));
    return { rows: all ?? now, columns, getRowId };
  };
  const inTurn = async (range: Range): Promise<GridContent<Row>> => {
    await drawn();
    return fetched(range);
  };
  return {
    here,
    fetched,
    /** Changes the range by a plan that is made from its rows. */
    change: (range: Range, plan: (content: GridContent<Row>) => ChangePlan): void => {
      const content = writes.isIdle ? here(range) : null;
      if (content) writes.apply(plan(content));
      else writes.applyInTurn(async () => plan(await inTurn(range)));
    },
    /** Does something to the rows of the range. */
    withIds: (range: Range, work: (rowIds: string[]) => void): void => {
      const idsOf = (content: GridContent<Row>) =>
        content.rows.slice(range.top, range.bottom + 1).map(getRowId);
      const content = writes.isIdle ? here(range) : null;
      if (content) work(idsOf(content));
      else writes.enqueue(async () => work(idsOf(await inTurn(range))));
    },
  };
};

export type WithRange<Row extends object> = ReturnType<typeof useWithRange<Row>>;

import { describe, expect, it } from 'vitest';
import {
  compareCells,
  extendOrder,
  keepOrder,
  orderOf,
} from '../../../renderer/components/data-grid/keep-order.ts';

const id = (text: string) => text;

describe('the order of rows', () => {
  it('stays when a value changes, and puts new rows last as they come', () => {
    const order = orderOf(['c', 'a', 'b'], id);
    expect(keepOrder(['a', 'b', 'c', 'x', 'd'], order, id)).toEqual(['c', 'a', 'b', 'x', 'd']);
    expect(keepOrder(['b', 'c'], order, id)).toEqual(['c', 'b']);
  });

  it('brings a hidden row back where it was', () => {
    const order = extendOrder(orderOf(['c', 'a', 'b'], id), ['c', 'b', 'n'], id);
    expect(keepOrder(['a', 'b', 'c', 'n'], order, id)).toEqual(['c', 'a', 'b', 'n']);
  });
});

describe('compareCells', () => {
  it('sorts numbers by size and texts as readers do', () => {
    expect([10, 9, 2.5].sort(compareCells)).toEqual([2.5, 9, 10]);
    expect(['Q-10', 'Q-9', 'q-1'].sort(compareCells)).toEqual(['q-1', 'Q-9', 'Q-10']);
    expect(['a', 3].sort(compareCells)).toEqual([3, 'a']);
  });
});

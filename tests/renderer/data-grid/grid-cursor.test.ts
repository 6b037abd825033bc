import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  afterEdit,
  at,
  boxOf,
  clampSelection,
  everything,
  move,
  type Step,
} from '../../../renderer/components/data-grid/cursor.ts';

const extent = { rows: 20, columns: 5, page: 8 };
const steps: Step[] = [
  'up',
  'down',
  'left',
  'right',
  'row start',
  'row end',
  'first',
  'last',
  'top',
  'bottom',
  'page up',
  'page down',
];

describe('the cursor', () => {
  it('walks, jumps and pages', () => {
    expect(move(at(3, 2), 'down', extent)).toEqual(at(4, 2));
    expect(move(at(3, 2), 'row end', extent)).toEqual(at(3, 4));
    expect(move(at(3, 2), 'last', extent)).toEqual(at(19, 4));
    expect(move(at(3, 2), 'page down', extent)).toEqual(at(11, 2));
    expect(move(at(15, 2), 'page down', extent)).toEqual(at(19, 2));
    expect(move(at(3, 2), 'page up', extent)).toEqual(at(0, 2));
  });

  it('reaches the heading alone, never with a range', () => {
    expect(move(at(0, 2), 'up', extent)).toEqual(at(-1, 2));
    expect(boxOf(at(-1, 2))).toBeNull();
    expect(move(at(0, 2), 'up', extent, true)).toEqual(at(0, 2));
  });

  it('stretches a range from where it began, in any direction', () => {
    const range = move(move(at(5, 2), 'up', extent, true), 'left', extent, true);
    expect(boxOf(range)).toEqual({ top: 4, bottom: 5, left: 1, right: 2 });
    expect(boxOf(everything(extent))).toEqual({ top: 0, bottom: 19, left: 0, right: 4 });
  });

  it('never leaves the grid, whatever is pressed and however the grid shrinks', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...steps), fc.boolean())),
        fc.record({
          rows: fc.integer({ min: 0, max: 30 }),
          columns: fc.integer({ min: 1, max: 9 }),
          page: fc.integer({ min: 1, max: 12 }),
        }),
        (presses, smaller) => {
          let selection = at(3, 2);
          for (const [step, extend] of presses) selection = move(selection, step, extent, extend);
          for (const { row, column } of Object.values(clampSelection(selection, smaller))) {
            expect(row).toBeGreaterThanOrEqual(-1);
            expect(row).toBeLessThan(Math.max(1, smaller.rows));
            expect(column).toBeGreaterThanOrEqual(0);
            expect(column).toBeLessThan(smaller.columns);
          }
        },
      ),
    );
  });
});

describe('after an edit', () => {
  it('Enter goes down, and back to where a run of Tabs began', () => {
    expect(afterEdit({ row: 3, column: 2 }, 'Enter', extent, null)).toEqual({ row: 4, column: 2 });
    expect(afterEdit({ row: 3, column: 4 }, 'Enter', extent, 1)).toEqual({ row: 4, column: 1 });
    expect(afterEdit({ row: 3, column: 2 }, 'Shift+Enter', extent, null)).toEqual({ row: 2, column: 2 });
  });

  it('Tab goes right, and round the end of a row', () => {
    expect(afterEdit({ row: 3, column: 2 }, 'Tab', extent, null)).toEqual({ row: 3, column: 3 });
    expect(afterEdit({ row: 3, column: 4 }, 'Tab', extent, null)).toEqual({ row: 4, column: 0 });
    expect(afterEdit({ row: 3, column: 0 }, 'Shift+Tab', extent, null)).toEqual({ row: 2, column: 4 });
  });

  it('stays in the grid at its ends', () => {
    expect(afterEdit({ row: 19, column: 2 }, 'Enter', extent, null)).toEqual({ row: 19, column: 2 });
    expect(afterEdit({ row: 0, column: 2 }, 'Shift+Enter', extent, null)).toEqual({ row: 0, column: 2 });
  });
});

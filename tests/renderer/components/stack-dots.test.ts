import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stackDots } from '../../../renderer/components/worth-strip/stack-dots.ts';

describe('stackDots', () => {
  it('sets dots that would touch on another storey', () => {
    const placed = stackDots([{ at: 0.5 }, { at: 0.505 }, { at: 0.51 }, { at: 0.9 }], 400, 10);
    expect(placed.map(({ storey }) => storey)).toEqual([0, 1, 2, 0]);
    expect(placed[3]?.left).toBeCloseTo(360, 10);
  });

  it('never covers one dot with another, and loses none', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 80 }), places => {
        const placed = stackDots(
          places.map(at => ({ at })),
          500,
          11,
        );
        expect(placed).toHaveLength(places.length);
        for (const [index, one] of placed.entries())
          for (const other of placed.slice(index + 1))
            if (one.storey === other.storey)
              expect(Math.abs(one.left - other.left)).toBeGreaterThanOrEqual(11);
      }),
    );
  });
});

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outerBounds } from '../../../valuation/statistics/outer-bounds.ts';

test('the bounds are the amounts that would stand there if all were sorted', () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.integer({ min: -3, max: 8 }), fc.double({ noNaN: false })), { maxLength: 700 }),
      amounts => {
        const sorted = amounts.filter(one => one > 0 && Number.isFinite(one)).sort((a, b) => a - b);
        const beyond = sorted.length < 200 ? 0 : Math.floor(sorted.length / 100);
        const wanted = sorted.length > 0 && {
          low: sorted[beyond],
          high: sorted[sorted.length - 1 - beyond],
        };
        expect(outerBounds(amounts)).toEqual(wanted || null);
      },
    ),
  );
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Line, worthOfLearning } from '../../../valuation/statistics/best-line.ts';

/** E max of the lines by Simpson's rule over ± 10. */
const integrated = (lines: readonly Line[]): number => {
  const steps = 20_000;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const z = -10 + (20 * i) / steps;
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    const best = Math.max(...lines.map(({ at, slope }) => at + slope * z));
    sum += (weight * best * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI);
  }
  return (sum * 20) / steps / 3;
};

describe('what it is worth to learn before choosing', () => {
  it.each([
    [0, 0.39894],
    [0.5, 0.1978],
    [1, 0.08332],
    [2, 0.008491],
    [3, 0.0003822],
  ])('is the unit normal loss of Raiffa & Schlaifer (1961), table I, at %f (from memory): %f', (c, loss) => {
    const worth = worthOfLearning([
      { at: 0, slope: 0 },
      { at: -c, slope: 1 },
    ]);
    expect(Math.abs(worth - loss)).toBeLessThan(loss * 2e-4);
  });

  it('is the mean of the best less the best of the means, whatever the lines', () => {
    const line = fc.record({
      at: fc.integer({ min: -300, max: 300 }).map(x => x / 100),
      slope: fc.integer({ min: -300, max: 300 }).map(x => x / 100),
    });
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 6 }), lines => {
        const now = Math.max(...lines.map(({ at }) => at));
        const worth = worthOfLearning(lines);
        expect(Math.abs(worth - (integrated(lines) - now))).toBeLessThan(1e-5);
        expect(worth).toBe(worthOfLearning([...lines].reverse()));
      }),
      { numRuns: 60 },
    );
  });

  it('is nothing where there is nothing to choose or to learn', () => {
    expect(worthOfLearning([])).toBe(0);
    expect(worthOfLearning([{ at: 5, slope: 3 }])).toBe(0);
    expect(
      worthOfLearning([
        { at: 5, slope: 3 },
        { at: 9, slope: 3 },
      ]),
    ).toBe(0);
    expect(() => worthOfLearning([{ at: Number.NaN, slope: 0 }])).toThrow(RangeError);
  });
});

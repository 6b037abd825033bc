import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isotonic } from '../../../valuation/index.ts';

const values = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 1, maxLength: 30 });

describe('isotonic', () => {
  it('never decreases, keeps the weighted mean, and leaves a rising sequence alone', () => {
    fc.assert(
      fc.property(values, fc.infiniteStream(fc.integer({ min: 1, max: 9 })), (given, stream) => {
        const weights = given.map(() => stream.next().value as number);
        const fitted = isotonic(given, weights);
        for (let i = 1; i < fitted.length; i++) expect(fitted[i]).toBeGreaterThanOrEqual(fitted[i - 1]!);
        const mean = (list: number[]) => list.reduce((sum, x, i) => sum + x * weights[i]!, 0);
        expect(mean(fitted)).toBeCloseTo(mean(given), 6);
        expect(isotonic(fitted, weights)).toEqual(fitted);
      }),
    );
  });

  it('is nearest: equal to the greatest lower mean over all stretches', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 10 }), given => {
        const mean = (from: number, to: number) =>
          given.slice(from, to + 1).reduce((a, b) => a + b, 0) / (to - from + 1);
        isotonic(given).forEach((fit, i) => {
          let best = Number.NEGATIVE_INFINITY;
          for (let from = 0; from <= i; from++) {
            let least = Number.POSITIVE_INFINITY;
            for (let to = i; to < given.length; to++) least = Math.min(least, mean(from, to));
            best = Math.max(best, least);
          }
          expect(fit).toBeCloseTo(best, 10);
        });
      }),
    );
  });

  it('leaves level stretches alone to the last bit, and the sign of a zero', () => {
    for (const level of [
      [-0, -0, 5e-324],
      [0.1, 0.1, 0.3],
      [-0, 0],
    ])
      expect(
        isotonic(
          level,
          level.map((_, i) => i + 2),
        ),
      ).toEqual(level);
    const fitted = isotonic([-0, -5e-324, 5e-324], [9, 2, 2]);
    expect(isotonic(fitted, [9, 2, 2])).toEqual(fitted);
  });

  it('weighs, and lets a value of no weight follow those that count', () => {
    expect(isotonic([3, 1], [3, 1])).toEqual([2.5, 2.5]);
    expect(isotonic([9, 1, 0, 2, -9], [0, 1, 0, 1, 0])).toEqual([1, 1, 1, 2, 2]);
  });

  it('refuses empty, mismatched and wild input', () => {
    expect(() => isotonic([])).toThrow('values must not be empty');
    expect(() => isotonic([1, Number.NaN])).toThrow(/^values\[1\]/);
    expect(() => isotonic([1, 2], [1])).toThrow(/^weights has 1/);
    expect(() => isotonic([1, 2], [1, -1])).toThrow(/^weights\[1\]/);
    expect(() => isotonic([1, 2], [0, 0])).toThrow(/^weights must not all be zero/);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantile, weightedQuantile } from '../../../valuation/index.ts';

const values = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 20 });
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('quantile', () => {
  it('runs from the least to the greatest, and does not mind the order', () => {
    fc.assert(
      fc.property(values, share, share, (given, p, q) => {
        const [low, high] = [quantile(given, Math.min(p, q)), quantile([...given].reverse(), Math.max(p, q))];
        expect(low).toBeLessThanOrEqual(high + 1e-9);
        expect(quantile(given, 0)).toBe(Math.min(...given));
        expect(quantile(given, 1)).toBe(Math.max(...given));
      }),
    );
  });

  it('does not touch its input, and takes -0 and huge values', () => {
    const given = [3, 1, 2];
    expect(quantile(given, 0.5)).toBe(2);
    expect(given).toEqual([3, 1, 2]);
    expect(quantile([1e308, -1e308], 0)).toBe(-1e308);
    expect(quantile([7], 0.3)).toBe(7);
  });

  it('refuses empty and wild input', () => {
    expect(() => quantile([], 0.5)).toThrow('values must not be empty');
    expect(() => quantile([1, Number.NaN], 0.5)).toThrow(/^values\[1\]/);
    for (const p of [-0.1, 1.1, Number.NaN]) expect(() => quantile([1], p)).toThrow(/^p must/);
  });
});

describe('weightedQuantile', () => {
  it('is the least value whose weights reach the share', () => {
    fc.assert(
      fc.property(values, fc.infiniteStream(fc.integer({ min: 0, max: 5 })), share, (given, stream, p) => {
        const weights = given.map(() => stream.next().value as number);
        const total = weights.reduce((a, b) => a + b, 0);
        fc.pre(total > 0);
        const found = weightedQuantile(given, weights, p);
        const upTo = (limit: number) => weights.reduce((sum, w, i) => sum + (given[i]! <= limit ? w : 0), 0);
        expect(upTo(found)).toBeGreaterThanOrEqual(p * total * (1 - 1e-9));
        if (upTo(found - 1) > 0) expect(upTo(found - 1)).toBeLessThan(p * total);
        expect(
          weights[given.indexOf(found)] !== undefined && given.some((x, i) => x === found && weights[i]! > 0),
        ).toBe(true);
      }),
    );
  });

  it('takes the lower of two middles, also where decimal weights do not sum exactly', () => {
    expect(weightedQuantile([1, 2, 3, 4], [1, 1, 1, 1], 0.5)).toBe(2);
    expect(weightedQuantile([1, 2], [0.1 + 0.2, 0.6 - 0.3], 0.5)).toBe(1);
    const tenths = new Array<number>(10).fill(0.1);
    expect(weightedQuantile([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], tenths, 0.8)).toBe(8);
    expect(weightedQuantile([5, 6], [0, 2], 0)).toBe(6);
  });

  it('refuses empty, mismatched and wild input', () => {
    expect(() => weightedQuantile([], [], 0.5)).toThrow('values must not be empty');
    expect(() => weightedQuantile([1, 2], [1], 0.5)).toThrow(/^weights has 1/);
    expect(() => weightedQuantile([1], [0], 0.5)).toThrow(/^weights must not all be zero/);
    expect(() => weightedQuantile([1], [-1], 0.5)).toThrow(/^weights\[0\]/);
    expect(() => weightedQuantile([1], [1], 2)).toThrow(/^p must/);
  });
});

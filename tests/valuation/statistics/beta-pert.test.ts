import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { betaPert } from '../../../valuation/index.ts';
import { incompleteBeta } from '../../../valuation/statistics/incomplete-beta.ts';

const points = fc
  .tuple(
    fc.integer({ min: -1000, max: 1000 }),
    fc.integer({ min: 0, max: 500 }),
    fc.integer({ min: 0, max: 500 }),
  )
  .map(([low, a, b]) => [low, low + a, low + a + b] as const);

describe('betaPert', () => {
  it('has quantiles that rise from low to high and go back through the distribution function', () => {
    fc.assert(
      fc.property(points, fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }), ([low, likely, high], p) => {
        fc.pre(high > low);
        const { quantile } = betaPert(low, likely, high);
        const x = quantile(p);
        expect(x).toBeGreaterThan(low);
        expect(x).toBeLessThan(high);
        const alpha = 1 + (4 * (likely - low)) / (high - low);
        expect(incompleteBeta((x - low) / (high - low), alpha, 6 - alpha)).toBeCloseTo(p, 9);
        expect(quantile(0)).toBe(low);
        expect(quantile(1)).toBe(high);
      }),
    );
  });

  it('has the mean and variance that its quantiles integrate to', () => {
    const { mean, variance, quantile } = betaPert(10, 12, 40);
    const n = 20_000;
    const draws = Array.from({ length: n }, (_, i) => quantile((i + 0.5) / n));
    const average = draws.reduce((a, b) => a + b) / n;
    expect(average).toBeCloseTo(mean, 3);
    expect(draws.reduce((sum, x) => sum + (x - average) ** 2, 0) / n / variance).toBeCloseTo(1, 3);
  });

  it('takes low = likely, likely = high, and a figure that is certain', () => {
    // A beta(1, 5) has the closed quantile 1 − (1 − p)^(1/5).
    expect(betaPert(0, 0, 1).quantile(0.3)).toBeCloseTo(1 - 0.7 ** 0.2, 14);
    expect(betaPert(0, 1, 1).quantile(0.3)).toBeCloseTo(0.3 ** 0.2, 14);
    const certain = betaPert(7, 7, 7);
    expect(certain).toMatchObject({ mean: 7, variance: 0 });
    expect([0, 0.2, 1].map(certain.quantile)).toEqual([7, 7, 7]);
    expect(betaPert(0.1, 0.1, 0.1).variance).toBe(0);
  });

  it('is symmetric about a likely figure in the middle', () => {
    const { quantile, mean } = betaPert(2, 6, 10);
    expect(mean).toBe(6);
    expect(quantile(0.5)).toBeCloseTo(6, 13);
    expect(quantile(0.1) + quantile(0.9)).toBeCloseTo(12, 12);
  });

  it('refuses points out of order and wild input', () => {
    expect(() => betaPert(3, 2, 4)).toThrow(/low ≤ likely ≤ high/);
    expect(() => betaPert(1, 5, 4)).toThrow(RangeError);
    expect(() => betaPert(Number.NaN, 2, 4)).toThrow(/^low must be a finite number/);
    expect(() => betaPert(1, 2, Number.POSITIVE_INFINITY)).toThrow(/^high/);
    expect(() => betaPert(1, 2, 3).quantile(1.5)).toThrow(/^p must/);
  });
});

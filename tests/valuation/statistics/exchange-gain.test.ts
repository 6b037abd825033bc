import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exchangeGain, normalCdf, normalQuantile } from '../../../valuation/index.ts';

const exchange = fc.record({
  m1: fc.double({ min: -3, max: 8, noNaN: true }),
  s1: fc.double({ min: 0, max: 1.5, noNaN: true }),
  m2: fc.double({ min: -3, max: 8, noNaN: true }),
  s2: fc.double({ min: 0, max: 1.5, noNaN: true }),
  rho: fc.double({ min: -1, max: 1, noNaN: true }),
});

describe('exchangeGain', () => {
  it('gains one way less the gain the other way is the difference of the means', () => {
    fc.assert(
      fc.property(exchange, ({ m1, s1, m2, s2, rho }) => {
        const there = exchangeGain({ m1, s1, m2, s2, rho });
        const back = exchangeGain({ m1: m2, s1: s2, m2: m1, s2: s1, rho });
        const [mean1, mean2] = [Math.exp(m1 + s1 ** 2 / 2), Math.exp(m2 + s2 ** 2 / 2)];
        const scale = 1e-10 * (mean1 + mean2);
        expect(Math.abs(there.expectedGain - back.expectedGain - (mean1 - mean2))).toBeLessThanOrEqual(scale);
        expect(there.expectedGain).toBeGreaterThanOrEqual(Math.max(0, mean1 - mean2) - scale);
        expect(there.expectedGain).toBeLessThanOrEqual(mean1 + scale);
        expect(there.probability + back.probability).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  it('lies within 4·√(p(1 − p)/n) of a sample', () => {
    const given = { m1: 5, s1: 0.4, m2: 4.8, s2: 0.3, rho: 0.6 };
    const side = 400;
    let above = 0;
    let gain = 0;
    for (let i = 0; i < side; i++) {
      for (let j = 0; j < side; j++) {
        // A lattice of quantiles stands in for draws.
        const u = normalQuantile((i + 0.5) / side);
        const v = normalQuantile((j + 0.5) / side);
        const x = Math.exp(given.m1 + given.s1 * u);
        const y = Math.exp(given.m2 + given.s2 * (given.rho * u + Math.sqrt(1 - given.rho ** 2) * v));
        if (x > y) above++;
        gain += Math.max(0, x - y);
      }
    }
    const n = side * side;
    const { probability, expectedGain } = exchangeGain(given);
    expect(Math.abs(above / n - probability)).toBeLessThan(
      4 * Math.sqrt((probability * (1 - probability)) / n),
    );
    expect(gain / n / expectedGain).toBeCloseTo(1, 2);
  });

  it('knows certainty: no spread, and spreads that move together', () => {
    expect(exchangeGain({ m1: 1, s1: 0, m2: 0, s2: 0, rho: 0 })).toEqual({
      probability: 1,
      expectedGain: Math.E - 1,
    });
    expect(exchangeGain({ m1: 0, s1: 0, m2: 1, s2: 0, rho: 0 })).toEqual({ probability: 0, expectedGain: 0 });
    expect(exchangeGain({ m1: 2, s1: 0.5, m2: 2, s2: 0.5, rho: 1 })).toEqual({
      probability: 0,
      expectedGain: 0,
    });
    const together = exchangeGain({ m1: 2, s1: 0.5, m2: 1, s2: 0.5, rho: 1 });
    expect(together.probability).toBe(1);
    expect(together.expectedGain).toBeCloseTo(Math.exp(2.125) - Math.exp(1.125), 12);
    const apart = exchangeGain({ m1: 2, s1: 0.5, m2: 2, s2: 0.5, rho: -1 });
    expect(apart.probability).toBe(0.5);
    expect(apart.expectedGain).toBeCloseTo(Math.exp(2.125) * (2 * normalCdf(0.5) - 1), 12);
  });

  it('goes over into certainty without a jump', () => {
    const near = exchangeGain({ m1: 5, s1: 0.3, m2: 5, s2: 0.3, rho: 1 - 1e-12 });
    expect(near.expectedGain).toBeGreaterThan(0);
    expect(near.expectedGain).toBeLessThan(1e-4);
    // As the spread s of the ratio vanishes the gain goes to F·s/√(2π).
    const s = Math.sqrt(2 * (1 - (1 - 1e-12)) * 0.09);
    expect(near.expectedGain / ((Math.exp(5.045) * s) / Math.sqrt(2 * Math.PI))).toBeCloseTo(1, 6);
  });

  it('refuses wild input, naming it', () => {
    const fine = { m1: 1, s1: 0.1, m2: 1, s2: 0.1, rho: 0 };
    for (const [name, value] of [
      ['m1', Number.NaN],
      ['m2', Number.POSITIVE_INFINITY],
      ['s1', -0.1],
      ['s2', Number.NaN],
      ['rho', 1.01],
    ] as const)
      expect(() => exchangeGain({ ...fine, [name]: value }), name).toThrow(new RegExp(`^${name} must`));
    expect(() => exchangeGain({ ...fine, m1: 800 })).toThrow(/^mean of X/);
  });
});

describe('the normal distribution', () => {
  it('has a quantile that undoes the distribution function, and tails that mirror', () => {
    fc.assert(
      fc.property(fc.double({ min: -37, max: 5, noNaN: true }), z => {
        expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 8);
        expect(normalCdf(z) + normalCdf(-z)).toBeCloseTo(1, 15);
      }),
    );
  });

  it('ends at 0 and 1', () => {
    expect(normalCdf(0)).toBe(0.5);
    expect([Number.NEGATIVE_INFINITY, -40, 40, Number.POSITIVE_INFINITY].map(normalCdf)).toEqual([
      0, 0, 1, 1,
    ]);
    expect([0, 0.5, 1].map(normalQuantile)).toEqual([Number.NEGATIVE_INFINITY, 0, Number.POSITIVE_INFINITY]);
    expect(() => normalCdf(Number.NaN)).toThrow(RangeError);
    expect(() => normalQuantile(1.5)).toThrow(RangeError);
  });
});

import { describe, expect, it } from 'vitest';
import {
  binomialBounds,
  crossingProbability,
  sequentialBounds,
} from '../../valuation/statistics/group-sequential.ts';
import { normalCdf, normalQuantile } from '../../valuation/statistics/normal.ts';

const looks = (count: number) => Array.from({ length: count }, (_, i) => (i + 1) / count);

describe('repeated significance tests: Armitage, McPherson & Rowe (1969), JRSS A 132, table 2 (from memory)', () => {
  it.each([
    [1, 0.05],
    [2, 0.083],
    [5, 0.142],
    [10, 0.193],
    [20, 0.248],
    [50, 0.32],
  ])('%i looks at 5 %% each: %f', (count, probability) => {
    const bounds = looks(count).map(() => normalQuantile(0.975));
    expect(crossingProbability(looks(count), bounds)).toBeCloseTo(probability, 2.9);
  });
});

describe('group sequential bounds', () => {
  it.each([
    [2, 2.178],
    [3, 2.289],
    [4, 2.361],
    [5, 2.413],
    [10, 2.555],
  ])('Pocock (1977), Biometrika 64: the constant of %i looks is %f (from memory)', (count, constant) => {
    const bounds = looks(count).map(() => constant);
    expect(crossingProbability(looks(count), bounds)).toBeCloseTo(0.05, 3.5);
  });

  it('O’Brien & Fleming (1979), Biometrics 35: 2.040 at the last of five looks (from memory)', () => {
    const bounds = looks(5).map(t => 2.04 / Math.sqrt(t));
    expect(crossingProbability(looks(5), bounds)).toBeCloseTo(0.05, 4);
  });

  it('Lan & DeMets (1983), Biometrika 70, five looks, both sides 0.05 (from memory)', () => {
    const likePocock = looks(5).map(t => 0.05 * Math.log(1 + (Math.E - 1) * t));
    expect(sequentialBounds(looks(5), likePocock).map(bound => bound.toFixed(3))).toEqual([
      '2.438',
      '2.427',
      '2.410',
      '2.397',
      '2.386',
    ]);
    const likeFleming = looks(5).map(t => 4 * (1 - normalCdf(normalQuantile(1 - 0.0125) / Math.sqrt(t))));
    expect(sequentialBounds(looks(5), likeFleming).map(bound => bound.toFixed(3))).toEqual([
      '4.877',
      '3.357',
      '2.680',
      '2.290',
      '2.031',
    ]);
  });
});

describe('counts of hits', () => {
  it('are too few or too many with no more than the chance that is spent, by every path', () => {
    const counts = [5, 8, 12];
    const bounds = binomialBounds(counts, [0.01, 0.03, 0.06], 0.8);
    let crossed = 0;
    for (let path = 0; path < 2 ** 12; path++) {
      const hits = (n: number) =>
        Array.from({ length: n }, (_, i) => (path >> i) & 1).reduce((a, b) => a + b, 0);
      const all = hits(12);
      if (counts.some((n, k) => hits(n) <= bounds[k]!.low || hits(n) >= bounds[k]!.high))
        crossed += 0.8 ** all * 0.2 ** (12 - all);
    }
    expect(crossed).toBeLessThanOrEqual(0.06);
    expect(crossed).toBeGreaterThan(0.01);
  });

  it('refuses looks that do not rise and lists that do not match', () => {
    expect(() => sequentialBounds([1, 1], [0.01, 0.02])).toThrow(RangeError);
    expect(() => crossingProbability([1, 2], [2])).toThrow(RangeError);
    expect(() => binomialBounds([5, 4], [0.01, 0.02], 0.8)).toThrow(RangeError);
  });
});

describe('power: Jennison & Turnbull, Group Sequential Methods (2000), tables 2.2 and 2.4, two-sided 0.05 (from memory)', () => {
  /** Power with so much information in all as gives `power` at one look, times the published factor. */
  const powerAt = (count: number, factor: number, power: number, boundAt: (t: number) => number) => {
    const needed = factor * (normalQuantile(0.975) + normalQuantile(power)) ** 2;
    return crossingProbability(
      looks(count).map(t => t * needed),
      looks(count).map(boundAt),
      1,
    );
  };

  it.each([
    [2, 2.178, 1.11, 1.1],
    [3, 2.289, 1.166, 1.151],
    [4, 2.361, 1.202, 1.183],
    [5, 2.413, 1.229, 1.207],
    [10, 2.555, 1.301, 1.271],
  ])('Pocock, %i looks: bound %f, factors %f for 80 %% and %f for 90 %%', (count, bound, for80, for90) => {
    expect(Math.abs(powerAt(count, for80, 0.8, () => bound) - 0.8)).toBeLessThan(5e-4);
    expect(Math.abs(powerAt(count, for90, 0.9, () => bound) - 0.9)).toBeLessThan(5e-4);
  });

  it.each([
    [2, 1.977, 1.008, 1.007],
    [3, 2.004, 1.017, 1.016],
    [4, 2.024, 1.024, 1.022],
    [5, 2.04, 1.028, 1.026],
    [10, 2.087, 1.04, 1.037],
  ])('O’Brien & Fleming, %i looks: bound %f, factors %f and %f', (count, bound, for80, for90) => {
    const boundAt = (t: number) => bound / Math.sqrt(t);
    expect(Math.abs(powerAt(count, for80, 0.8, boundAt) - 0.8)).toBeLessThan(5e-4);
    expect(Math.abs(powerAt(count, for90, 0.9, boundAt) - 0.9)).toBeLessThan(5e-4);
  });
});

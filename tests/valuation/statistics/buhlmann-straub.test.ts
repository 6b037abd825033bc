import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buhlmannStraub } from '../../../valuation/index.ts';

const unit = (...values: number[]) => ({ values, weights: values.map(() => 1) });
const observation = fc.record({
  value: fc.double({ min: -1000, max: 1000, noNaN: true }),
  weight: fc.double({ min: 0.01, max: 100, noNaN: true }),
});
const group = fc
  .array(observation, { minLength: 2, maxLength: 8 })
  .map(list => ({ values: list.map(o => o.value), weights: list.map(o => o.weight) }));
const groups = fc.array(group, { minLength: 2, maxLength: 8 });

describe('buhlmannStraub', () => {
  it('works out by hand: two groups of two', () => {
    // Means 2 and 8, within (2 + 2)/2 = 2, between 4/(16 − 8) · (2·9·2 − 2) = 17, z = 34/36.
    const { within, between, collective, credibility, estimates } = buhlmannStraub([unit(1, 3), unit(7, 9)]);
    expect(within).toBeCloseTo(2, 14);
    expect(between).toBeCloseTo(17, 13);
    expect(collective).toBeCloseTo(5, 14);
    expect(credibility[0]).toBeCloseTo(34 / 36, 14);
    expect(estimates[1]).toBeCloseTo(5 + (3 * 34) / 36, 13);
  });

  it('keeps every estimate between the own mean and the collective, and credibility in 0…1', () => {
    fc.assert(
      fc.property(groups, given => {
        const { collective, credibility, estimates, between } = buhlmannStraub(given);
        given.forEach(({ values, weights }, i) => {
          const total = weights.reduce((a, b) => a + b);
          const mean = values.reduce((sum, x, k) => sum + x * weights[k]!, 0) / total;
          expect(credibility[i]).toBeGreaterThanOrEqual(0);
          expect(credibility[i]).toBeLessThanOrEqual(1);
          const slack = 1e-9 * (1 + Math.abs(mean));
          expect(estimates[i]).toBeGreaterThanOrEqual(Math.min(mean, collective) - slack);
          expect(estimates[i]).toBeLessThanOrEqual(Math.max(mean, collective) + slack);
          if (between === 0) expect(credibility[i]).toBe(0);
        });
      }),
    );
  });

  it('does not mind the order of groups, and moves and scales with the values', () => {
    fc.assert(
      fc.property(groups, given => {
        const plain = buhlmannStraub(given);
        fc.pre(plain.between > 1e-6);
        const turned = buhlmannStraub([...given].reverse());
        expect(turned.collective).toBeCloseTo(plain.collective, 6);
        const moved = buhlmannStraub(
          given.map(({ values, weights }) => ({ values: values.map(x => 10 + 2 * x), weights })),
        );
        expect(moved.collective).toBeCloseTo(10 + 2 * plain.collective, 6);
        expect(moved.within / plain.within).toBeCloseTo(4, 6);
        expect(moved.credibility[0]).toBeCloseTo(plain.credibility[0]!, 6);
      }),
    );
  });

  it('pools wholly to the weighted grand mean where the variance between comes out below zero', () => {
    const result = buhlmannStraub([
      { values: [0, 10], weights: [1, 1] },
      { values: [1, 9, 8], weights: [1, 1, 2] },
    ]);
    expect(result.between).toBe(0);
    expect(result.credibility).toEqual([0, 0]);
    expect(result.collective).toBeCloseTo(36 / 6, 14);
    expect(result.estimates).toEqual([result.collective, result.collective]);
  });

  it('gives a group of one observation, of no weight, and a lone group what is due', () => {
    const { credibility, estimates, collective } = buhlmannStraub([
      unit(1, 3),
      unit(7, 9),
      unit(4),
      { values: [99, 99], weights: [0, 0] },
    ]);
    expect(credibility[2]).toBeGreaterThan(0);
    expect(credibility[2]).toBeLessThan(credibility[0]!);
    expect(credibility[3]).toBe(0);
    expect(estimates[3]).toBe(collective);
    expect(buhlmannStraub([unit(1, 3)])).toEqual({
      within: 2,
      between: 0,
      collective: 2,
      credibility: [0],
      estimates: [2],
    });
  });

  it('leaves out observations of no weight', () => {
    const padded = [
      { values: [1, 3, 500], weights: [1, 1, 0] },
      { values: [7, 9], weights: [1, 1] },
    ];
    expect(buhlmannStraub(padded)).toEqual(buhlmannStraub([unit(1, 3), unit(7, 9)]));
  });

  it('stays finite where groups do not vary', () => {
    expect(buhlmannStraub([unit(5, 5), unit(9, 9)]).credibility).toEqual([1, 1]);
    expect(buhlmannStraub([unit(5, 5), unit(5, 5)])).toMatchObject({
      between: 0,
      credibility: [0, 0],
      estimates: [5, 5],
    });
  });

  it('refuses empty, mismatched and wild input, naming it', () => {
    expect(() => buhlmannStraub([])).toThrow('groups must not be empty');
    expect(() => buhlmannStraub([unit(1, 2), unit()])).toThrow('groups[1].values must not be empty');
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [1] }])).toThrow(
      /groups\[0\]\.weights has 1 entries where 2/,
    );
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [1, -1] }])).toThrow(
      /groups\[0\]\.weights\[1\] must not be negative/,
    );
    expect(() => buhlmannStraub([unit(1, Number.NaN)])).toThrow(/groups\[0\]\.values\[1\]/);
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [1, Number.POSITIVE_INFINITY] }])).toThrow(
      RangeError,
    );
    expect(() => buhlmannStraub([{ values: [1, 2], weights: [0, 0] }])).toThrow(/must not all be zero/);
    expect(() => buhlmannStraub([unit(1), unit(2)])).toThrow(/at least one with two observations/);
  });
});

import { describe, expect, it } from 'vitest';
import { addCosts, costWithMid, planComponents } from '../../../valuation/decision/plan-cost.ts';
import { betaPert } from '../../../valuation/statistics/beta-pert.ts';
import { lowDiscrepancy } from '../../../valuation/statistics/low-discrepancy.ts';
import { quantile } from '../../../valuation/statistics/quantile.ts';

const line = (low: number, likely: number, high: number) => ({
  name: 'x',
  kind: 'material' as const,
  cost: { low, likely, high },
});
const hours = { low: 2, likely: 3, high: 7 };
const points = (dimensions: number) => lowDiscrepancy(2048, dimensions);

describe('planComponents', () => {
  it('adds hours at the owner’s rate to the lines, and leaves out what is nothing', () => {
    const lines = [line(100, 200, 400), line(0, 0, 0)];
    expect(planComponents({ lines, hours }, 1000)).toEqual([
      { low: 100, likely: 200, high: 400 },
      { low: 2000, likely: 3000, high: 7000 },
    ]);
    expect(planComponents({ lines, hours }, 0)).toHaveLength(1);
    expect(() => planComponents({ lines, hours }, -1)).toThrow(RangeError);
    expect(() => planComponents({ lines, hours }, Number.NaN)).toThrow(RangeError);
  });
});

describe('addCosts', () => {
  it('is the beta-PERT itself for one line', () => {
    const cost = addCosts([{ low: 100, likely: 200, high: 600 }]);
    const pert = betaPert(100, 200, 600);
    expect(cost.mean).toBe(pert.mean);
    for (const [key, p] of [
      ['low', 0.1],
      ['mid', 0.5],
      ['high', 0.9],
    ] as const)
      expect(Math.abs(cost.range[key] - pert.quantile(p))).toBeLessThan(1.5);
  });

  it('adds means and variances of independent lines', () => {
    const list = [
      { low: 100, likely: 200, high: 600 },
      { low: 0, likely: 300, high: 400 },
      { low: 50, likely: 50, high: 900 },
    ];
    const cost = addCosts(list);
    const perts = list.map(({ low, likely, high }) => betaPert(low, likely, high));
    const mean = perts.reduce((sum, p) => sum + p.mean, 0);
    const variance = perts.reduce((sum, p) => sum + p.variance, 0);
    const { points: stand } = cost;
    const middle = stand.reduce((a, b) => a + b, 0) / stand.length;
    const spread = stand.reduce((sum, x) => sum + (x - middle) ** 2, 0) / stand.length;
    expect(cost.mean).toBeCloseTo(mean, 9);
    expect(middle).toBeCloseTo(mean, 9);
    expect(spread).toBeCloseTo(variance, 6);
  });

  it('has the quantiles of the sum that drawing each line gives', () => {
    const list = [
      { low: 100, likely: 200, high: 600 },
      { low: 0, likely: 20, high: 400 },
      { low: 50, likely: 50, high: 900 },
    ];
    const drawn = points(3).map((row, k) => {
      const { low, likely, high } = list[k]!;
      return row.map(betaPert(low, likely, high).quantile);
    });
    const sums = Array.from(drawn[0]!, (x, i) => x + drawn[1]![i]! + drawn[2]![i]!);
    const { range } = addCosts(list);
    const sd = Math.sqrt(
      list.reduce((sum, one) => sum + betaPert(one.low, one.likely, one.high).variance, 0),
    );
    for (const [key, p] of [
      ['low', 0.1],
      ['mid', 0.5],
      ['high', 0.9],
    ] as const)
      expect(Math.abs(range[key] - quantile(sums, p)) / sd, key).toBeLessThan(0.03);
  });

  it('is nothing without lines, and certain where low is high', () => {
    expect(addCosts([])).toMatchObject({ mean: 0, mid: 0, range: { low: 0, mid: 0, high: 0 } });
    const certain = addCosts([{ low: 250, likely: 250, high: 250 }]);
    expect(certain).toMatchObject({ mean: 250, mid: 250, range: { low: 250, mid: 250, high: 250 } });
  });

  it('refuses costs below zero or out of order', () => {
    expect(() => addCosts([{ low: -1, likely: 0, high: 1 }])).toThrow(RangeError);
    expect(() => addCosts([{ low: 5, likely: 2, high: 9 }])).toThrow(RangeError);
  });
});

describe('costWithMid', () => {
  it('scales a cost to another median, and makes nothing a certain sum', () => {
    const cost = addCosts([{ low: 100, likely: 200, high: 600 }]);
    const double = costWithMid(cost, cost.mid * 2);
    expect(double.mean).toBeCloseTo(cost.mean * 2, 9);
    expect(double.points[2]).toBeCloseTo(cost.points[2]! * 2, 9);
    const made = costWithMid(addCosts([]), 80);
    expect(made).toMatchObject({ mean: 80, mid: 80, range: { low: 80, mid: 80, high: 80 } });
    expect(made.points).toEqual([80]);
  });
});

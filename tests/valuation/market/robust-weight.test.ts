import { describe, expect, it } from 'vitest';
import { leftOutDeparture, robustWeight } from '../../../valuation/market/robust-weight.ts';

describe('robustWeight', () => {
  it('is 1 up to 2.5 standard deviations, then falls without ever giving a further record more pull', () => {
    expect([0, 1, -2.5].map(robustWeight)).toEqual([1, 1, 1]);
    expect(robustWeight(5)).toBeCloseTo(1 / 8, 12);
    let pull = robustWeight(2.5) * 2.5;
    for (let t = 2.6; t < 50; t += 0.1) {
      expect(robustWeight(t)).toBe(robustWeight(-t));
      expect(robustWeight(t) * t).toBeLessThan(pull);
      pull = robustWeight(t) * t;
    }
    expect(robustWeight(15) * 15).toBeLessThan(0.1);
  });
});

describe('leftOutDeparture', () => {
  it('is what refitting without the sale gives, for a mean with a normal prior', () => {
    const values = [1.2, 0.4, 2.9, 0.8];
    const [sale, between] = [0.3, 0.5];
    const pool = (list: number[]) => {
      const variance = 1 / (1 / between + list.length / sale);
      return { variance, mean: (variance * list.reduce((a, b) => a + b, 0)) / sale };
    };
    const all = pool(values);
    values.forEach((value, i) => {
      const others = pool(values.filter((_, k) => k !== i));
      const { apart, departure } = leftOutDeparture(value - all.mean, sale, sale, all.variance);
      expect(apart).toBeCloseTo(value - others.mean, 12);
      expect(departure).toBeCloseTo((value - others.mean) / Math.sqrt(sale + others.variance), 12);
    });
  });
});

import { describe, expect, it } from 'vitest';
import { adjustedBasis, netGain } from '../../../valuation/index.ts';

describe('netGain', () => {
  it('is what is left of the proceeds after fees, cost and improvements; a loss is below zero', () => {
    expect(netGain({ proceeds: 12_000, fees: 1_500, cost: 4_000, improvements: 2_250 })).toBe(4_250);
    expect(netGain({ proceeds: 1_000, fees: 100, cost: 4_000, improvements: 0 })).toBe(-3_100);
    expect(adjustedBasis({ cost: 4_000, improvements: 2_250 })).toBe(6_250);
  });

  it('refuses anything but whole amounts, rather than take it for zero', () => {
    const fine = { proceeds: 1, fees: 1, cost: 1, improvements: 1 };
    for (const name of ['proceeds', 'fees', 'cost', 'improvements'] as const) {
      for (const value of [Number.NaN, Number.POSITIVE_INFINITY, 0.5, -1])
        expect(() => netGain({ ...fine, [name]: value }), `${name} ${value}`).toThrow(
          new RegExp(`^${name} must be a whole`),
        );
    }
    const { fees: _, ...without } = fine;
    expect(() => netGain(without as typeof fine)).toThrow(/^fees must be/);
  });
});

import { describe, expect, it } from 'vitest';
import { defaultAssumptions, fitMarket, type IndexName } from '../../../valuation/index.ts';
import { timeText } from '../../../valuation/wording/time-text.ts';
import { type MarketWish, simulateMarket } from '../../helpers/markets/market-simulator.ts';

const assumptions = defaultAssumptions('USD');
const fitted = (wish: MarketWish, index: IndexName = 'records') => {
  const { market, on } = simulateMarket(wish);
  return fitMarket(market, { ...assumptions, index }, on);
};

describe('how prices move with time', () => {
  it('is chosen by what predicts the records: nothing in a still market, a trend, steps after a bubble', () => {
    for (const seed of [1, 2, 3]) {
      expect(fitted({ seed, drift: 0 }).time).toMatchObject({ used: 'none', by: 'records', steps: [] });
      expect(fitted({ seed, drift: 0.1 }).time.used).toBe('trend');
      expect(fitted({ seed, drift: 0, bubble: 0.7 }).time.used).toBe('steps');
    }
  });

  it('finds steps after a bubble also where sales vary as much as is assumed', () => {
    for (const seed of [2, 3, 4])
      expect(fitted({ seed, drift: 0, bubble: 0.7, asAssumed: assumptions }).time.used).toBe('steps');
  });

  it('leaves a market that was found to be still as one without an index', () => {
    const chosen = fitted({ seed: 4, drift: 0 });
    const without = fitted({ seed: 4, drift: 0 }, 'none');
    expect(chosen.inside.level).toBeCloseTo(without.inside.level, 6);
    expect(chosen.spread.within).toBeCloseTo(without.spread.within, 6);
    expect(without.time).toEqual({ used: 'none', by: 'owner', trial: null, steps: [] });
  });

  it('follows a bubble by its steps, to the level that it came back to', () => {
    const { time, inside } = fitted({ seed: 5, drift: 0, bubble: 0.7 }, 'steps');
    expect(time.by).toBe('owner');
    // At its peak three years ago the market stood 0.7 higher, and five years ago and today at nothing.
    expect(inside.timeLog(3)).toBeLessThan(-0.45);
    expect(Math.abs(inside.timeLog(1))).toBeLessThan(0.15);
    expect(Math.abs(inside.timeLog(6))).toBeLessThan(0.25);
    expect(time.steps.map(({ from, to }) => [from, to]).slice(0, 3)).toEqual([
      [0, 1],
      [1, 2],
      [2, 3],
    ]);
    const product = time.steps.reduce((sum, { factor }) => sum + Math.log(factor), 0);
    expect(product).toBeCloseTo(inside.timeLog(8), 1);
  });

  it('takes prices as they were where too little is known of time', () => {
    const { market, on } = simulateMarket({ seed: 6, drift: 0.1 });
    const few = fitMarket({ ...market, sales: market.sales.slice(0, 39) }, assumptions, on);
    expect(few.time).toEqual({ used: 'none', by: 'records', trial: null, steps: [] });
    expect(timeText(few.time, 'en-US')).toContain('too few sales');
  });

  it('gives the same for the same input, and says what it tried', () => {
    const one = fitted({ seed: 7, drift: 0.1 });
    expect(fitted({ seed: 7, drift: 0.1 }).time).toEqual(one.time);
    const { trial } = one.time;
    expect(trial!.errors.trend).toBeLessThan(trial!.errors.none);
    expect(trial!.records).toBeGreaterThan(50);
    expect(timeText(one.time, 'en-US')).toMatch(
      /^Old prices are now adjusted by one steady trend\. Tried on your/,
    );
    expect(timeText({ used: 'index', by: 'owner', trial: null, steps: [] }, 'en-US')).toBe('');
  });
});

import { describe, expect, it } from 'vitest';
import { defaultAssumptions, fittedTrend } from '../../../valuation/index.ts';
import { simulateMarket } from '../../helpers/market-simulator.ts';

const assumptions = defaultAssumptions('USD');

describe('fittedTrend', () => {
  it('offers the trend of a moving market, and what it would improve', () => {
    const { market, on } = simulateMarket({ seed: 3, drift: 0.08 });
    const offer = fittedTrend(market, assumptions, on)!;
    expect(Math.abs(Math.log(offer.perYear) - 0.08)).toBeLessThan(0.02);
    expect(offer.records).toBe(market.sales.length);
    expect(offer.typicalError.with).toBeLessThan(offer.typicalError.without);
  });

  it('offers next to nothing in a still market, and nothing from few records', () => {
    const { market, on } = simulateMarket({ seed: 3, drift: 0 });
    const offer = fittedTrend(market, assumptions, on)!;
    expect(Math.abs(Math.log(offer.perYear))).toBeLessThan(0.02);
    expect(fittedTrend({ ...market, sales: market.sales.slice(0, 20) }, assumptions, on)).toBeNull();
  });
});

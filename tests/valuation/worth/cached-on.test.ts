import { describe, expect, it } from 'vitest';
import type { FittedMarket } from '../../../valuation/market/fitted-market.ts';
import { cachedOn, onceOn } from '../../../valuation/worth/cached-on.ts';

const market = () => ({}) as FittedMarket;

describe('results held with a market', () => {
  it('are worked out once for each market', () => {
    let made = 0;
    const count = onceOn(() => ++made);
    const [first, second] = [market(), market()];
    expect([count(first), count(first), count(second), count(first)]).toEqual([1, 1, 2, 1]);
  });
  it('are worked out once for each key, and at most so many are held', () => {
    const made: number[] = [];
    const held = cachedOn<number, { key: number }>(2);
    const fitted = market();
    const ask = (key: number) =>
      held(fitted, key, () => {
        made.push(key);
        return { key };
      });
    for (const key of [1, 2, 1, 3, 2, 1]) expect(ask(key)).toEqual({ key });
    expect(made).toEqual([1, 2, 3, 1]);
  });
});

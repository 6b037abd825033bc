import { beforeAll, describe, expect, it } from 'vitest';
import { type JudgedCar, type Judgement, judgeMarket } from '../../helpers/markets/judge-market.ts';
import { type MarketWish, simulateMarket } from '../../helpers/markets/market-simulator.ts';

const median = (values: number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!;
const share = (list: boolean[]) => list.filter(Boolean).length / list.length;
const seeds = Array.from({ length: 16 }, (_, i) => 101 + i);
const judge = (wish: Omit<MarketWish, 'seed'>, index: 'none' | 'trend') =>
  seeds.map(seed => judgeMarket(simulateMarket({ ...wish, seed }), index, seed));

describe('the simulated market', () => {
  it('is as sparse as a real one: a third of the variations never sold, a median of two sales', () => {
    const counts = seeds.flatMap(seed => {
      const { market, truth } = simulateMarket({ seed });
      return market.variations.map(({ id }) => truth.salesOf(id));
    });
    expect(median(counts)).toBe(2);
    expect(share(counts.map(count => count === 0))).toBeGreaterThan(0.28);
    expect(share(counts.map(count => count === 0))).toBeLessThan(0.38);
  });

  it('is the same for the same seed', () => {
    expect(simulateMarket({ seed: 5 }).market).toEqual(simulateMarket({ seed: 5 }).market);
    expect(simulateMarket({ seed: 5 }).market).not.toEqual(simulateMarket({ seed: 6 }).market);
  });
});

describe.each([
  ['with a fitted trend', {}, 'trend' as const],
  ['in a still market without an index', { drift: 0 }, 'none' as const],
  ['with wild and ungraded records', { wildShare: 0.02, ungradedShare: 0.1 }, 'trend' as const],
])('against markets of known truth %s', (_, wish, index) => {
  let judged: Judgement[] = [];
  let cars: JudgedCar[] = [];
  beforeAll(() => {
    judged = judge(wish, index);
    cars = judged.flatMap(one => one.cars);
  });

  it('holds 75 to 85 % of new sales in its ranges, and 70 to 90 % at every sparsity', () => {
    expect(share(cars.map(({ covered }) => covered))).toBeGreaterThan(0.75);
    expect(share(cars.map(({ covered }) => covered))).toBeLessThan(0.85);
    for (const level of ['0 sales', '1–2', '3+']) {
      const coverage = share(cars.filter(car => car.level === level).map(({ covered }) => covered));
      expect(coverage).toBeGreaterThan(0.7);
      expect(coverage).toBeLessThan(0.9);
    }
  });

  it('errs less than means and dummies at every sparsity', () => {
    for (const level of ['0 sales', '1–2', '3+'])
      for (const key of ['own mean', 'casting mean', 'casting dummies', 'variation dummies'] as const) {
        const answered = cars.filter(car => car.level === level && !Number.isNaN(car.errors[key]));
        if (answered.length === 0) {
          expect([level, key]).toEqual(['0 sales', 'own mean']);
          continue;
        }
        const ours = median(answered.map(({ errors }) => errors.ours));
        const theirs = median(answered.map(({ errors }) => errors[key]));
        expect(ours, `${level}, ${key}`).toBeLessThan(theirs * (level === '3+' ? 1.02 : 1));
      }
  });

  // The floors are the owner's caution, not a forecast; a plan that promises too much passes
  // them more easily.
  it('loses less with plans made from the cars than with the standard plan’s certain grade, and keeps what it promises', () => {
    const standard = seeds.map(seed =>
      judgeMarket(simulateMarket({ ...wish, seed }), index, seed, 'standard'),
    );
    const lost = (list: Judgement[]) => list.reduce((sum, { regret }) => sum + regret.noFloors, 0);
    expect(lost(judged)).toBeLessThan(lost(standard) / 2);
    const kept = (list: Judgement[]) =>
      list.reduce((sum, { promised }) => sum + promised, 0) / list.reduce((sum, { came }) => sum + came, 0);
    expect(kept(judged)).toBeGreaterThan(0.85);
    expect(kept(judged)).toBeLessThan(1.15);
    expect(kept(standard)).toBeGreaterThan(1.4);
  });

  it('loses at most half of what restoring whatever is under C6 loses', () => {
    const lost = (key: 'ours' | 'underC6') => judged.reduce((sum, { regret }) => sum + regret[key], 0);
    expect(lost('ours')).toBeLessThan(lost('underC6') / 2);
  });
});

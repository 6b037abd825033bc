import { describe, expect, it } from 'vitest';
import { lookUpNext, saleOf, slopeOn } from '../../../valuation/decision/look-up-next.ts';
import { defaultAssumptions, fitMarket, type Market, type SaleRecord } from '../../../valuation/index.ts';
import { gradeStep } from '../../../valuation/market/assumed-curve.ts';
import { finishStates, grades } from '../../../valuation/words.ts';
import { factorsAt } from '../../../valuation/worth/shared-factors.ts';
import { ladderOf, subjectPlace } from '../../../valuation/worth/subject-place.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const assumptions = defaultAssumptions('USD');
const { market, on } = simulateMarket({
  seed: 8,
  drift: 0,
  series: 3,
  castingsPerSeries: 6,
  noRestored: true,
});
const fitted = fitMarket(market, assumptions, on);
const cars = market.variations.map(({ id, castingId }, i) =>
  subjectOf({ id, castingId, variationId: id, grade: 3 + (i % 7) / 2 }),
);

describe('what to look up next', () => {
  it('is restored cars where none was ever seen sold', () => {
    const list = lookUpNext(fitted, cars);
    expect(list.length).toBeGreaterThan(0);
    expect(list.length).toBeLessThanOrEqual(5);
    expect(list[0]!.state).toBe('restored');
    expect(list[0]!.worth).toBeGreaterThan(100);
    expect(list[0]!.cars).toBeGreaterThan(1);
    expect(list.map(({ worth }) => worth)).toEqual(list.map(({ worth }) => worth).toSorted((a, b) => b - a));
  });

  it('is worth much less once they have been looked up', () => {
    const known = simulateMarket({ seed: 8, drift: 0, series: 3, castingsPerSeries: 6, density: 4 });
    const total = (list: ReturnType<typeof lookUpNext>) => list.reduce((sum, { worth }) => sum + worth, 0);
    const many = lookUpNext(fitMarket(known.market, assumptions, on), cars);
    expect(total(many)).toBeLessThan(total(lookUpNext(fitted, cars)) / 2);
  });

  it('is nothing without cars, without a market, and for cars that a guard holds', () => {
    expect(lookUpNext(fitted, [])).toEqual([]);
    expect(lookUpNext(fitMarket({ ...market, sales: [] }, assumptions, on), cars)).toEqual([]);
  });

  it('moves a worth as far as the fit itself then does', () => {
    // Variances as they are, so that only the three sales differ.
    const held = {
      ...assumptions,
      index: 'none' as const,
      prior: { ...assumptions.prior, strength: 1e9 },
    };
    const before = fitMarket(market, held, on);
    for (const [state, grade] of [
      ['restored', 8],
      ['original', 5],
    ] as const)
      for (const { id, castingId } of market.variations.slice(0, 12)) {
        const place = subjectPlace(before, subjectOf({ variationId: id }))!;
        const rung = finishStates.indexOf(state) * grades.length + gradeStep(grade);
        const price = Math.round(Math.exp(ladderOf(before, place).mean[rung]!));
        const three = [1, 2, 3].map(
          (k): SaleRecord => ({
            id: 1_000_000 + k,
            soldOn: on,
            price,
            currency: 'USD',
            castingId,
            variationId: id,
            grade,
            finishState: state,
            missingParts: [],
            reproductionParts: [],
            reliability: 1,
            source: 'auction',
          }),
        );
        const more: Market = { ...market, sales: [...market.sales, ...three] };
        const after = fitMarket(more, held, on);
        const told = ladderOf(before, place).shared[rung]! ** 2 - ladderOf(after, place).shared[rung]! ** 2;
        const sale = saleOf(before, 'variation', place, { state, step: gradeStep(grade) });
        const way = factorsAt(before, place, finishStates.indexOf(state), gradeStep(grade));
        expect(slopeOn(way, sale) ** 2 / told).toBeGreaterThan(0.8);
        expect(slopeOn(way, sale) ** 2 / told).toBeLessThan(1.25);
      }
  });
});

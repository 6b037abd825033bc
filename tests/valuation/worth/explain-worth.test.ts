import { describe, expect, it } from 'vitest';
import { defaultAssumptions, explainWorth, fitMarket, valueCar } from '../../../valuation/index.ts';
import { adjustmentText } from '../../../valuation/wording/values/record-text.ts';
import { recordWeights } from '../../../valuation/worth/record-weights.ts';
import { on, saleOf, subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const assumptions = { ...defaultAssumptions('USD'), index: 'trend' as const };
const { market, on: date } = simulateMarket({
  seed: 9,
  series: 2,
  castingsPerSeries: 5,
  incompleteShare: 0.3,
  ungradedShare: 0.1,
});
const fitted = fitMarket(market, assumptions, date);

describe('explainWorth', () => {
  it('shares out all of the weight, heaviest first, nearest level heaviest', () => {
    for (const { id } of market.variations.slice(0, 12)) {
      const grid = explainWorth(fitted, subjectOf({ variationId: id }), 'asFound');
      expect(grid.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9);
      grid.forEach(({ weight }, i) => {
        if (i > 0) expect(weight).toBeLessThanOrEqual(grid[i - 1]!.weight);
      });
      const own = grid.filter(({ level }) => level === 'variation');
      expect(own.length).toBe(market.sales.filter(sale => sale.variationId === id).length);
    }
  });

  it('multiplies line by line from the price to the adjusted price', () => {
    const subject = subjectOf({ variationId: market.variations[2]!.id, grade: 3, finishState: 'restored' });
    for (const which of ['asFound', 'restored', 'originalFinish'] as const)
      for (const { price, adjusted, adjustments } of explainWorth(fitted, subject, which)) {
        const product = adjustments.reduce((value, { factor }) => value * factor, price);
        expect(Math.abs(product - adjusted)).toBeLessThanOrEqual(0.51);
        for (const { cause } of adjustments) expect(adjustmentText(cause, 'en-GB')).toMatch(/\w/);
      }
  });

  it('has the mid of the worth as the weighted geometric mean of the adjusted prices', () => {
    for (const { id } of market.variations)
      for (const grade of [3, 6, 9]) {
        const subject = subjectOf({ variationId: id, grade });
        const { asFound, restored } = valueCar(fitted, subject);
        for (const [which, worth] of [
          ['asFound', asFound],
          ['restored', restored],
        ] as const) {
          const mean = explainWorth(fitted, subject, which).reduce(
            (sum, { weight, adjusted }) => sum + weight * Math.log(adjusted),
            0,
          );
          expect(Math.abs(mean - worth!.logMean)).toBeLessThan(0.03);
        }
      }
  });

  it('says what each adjustment did, and leaves out those that did nothing', () => {
    const small = fitMarket(
      {
        reportingCurrency: 'USD',
        castings: [{ id: 1, seriesId: 1 }],
        variations: [
          { id: 1, castingId: 1, rarity: 'common' },
          { id: 2, castingId: 1, rarity: 'rare' },
        ],
        sales: [
          saleOf({ id: 1, soldOn: on }),
          saleOf({
            id: 2,
            variationId: 2,
            currency: 'EUR',
            soldOn: '2024-02-02',
            grade: 8,
            finishState: 'touched up',
            missingParts: ['wheels'],
          }),
          saleOf({ id: 3, grade: null }),
        ],
        rates: [{ currency: 'EUR', on: '2024-01-01', rate: 1.1 }],
      },
      { ...defaultAssumptions('USD'), index: 'cpi-u' },
      on,
    );
    const grid = explainWorth(small, subjectOf({ variationId: 1 }), 'asFound');
    const lines = (id: number) => grid.find(record => record.id === id)!.adjustments;
    expect(lines(1)).toEqual([]);
    expect(lines(2).map(({ what }) => what)).toEqual([
      'currency',
      'date',
      'rarity',
      'grade',
      'finish state',
      'parts',
    ]);
    const factorOf = (what: string) => lines(2).find(line => line.what === what)!.factor;
    expect(factorOf('currency')).toBeCloseTo(1.1, 12);
    expect(factorOf('rarity')).toBeLessThan(1);
    expect(factorOf('grade')).toBeLessThan(1);
    expect(factorOf('finish state')).toBeGreaterThan(1);
    expect(factorOf('parts')).toBeCloseTo(1 / 0.7, 9);
    expect(lines(2)[0]!.cause).toEqual({
      kind: 'exchange-rate',
      from: 'EUR',
      to: 'USD',
      on: '2024-02-02',
    });
    expect(lines(2).at(-1)!.cause).toEqual({
      kind: 'made-complete',
      missing: ['wheels'],
      reproductions: [],
    });
  });

  it('takes the plan’s fidelity into the restored grid', () => {
    const parts = [{ part: 'glazing' as const, grade: null, originality: 'missing' as const }];
    const subject = subjectOf({ variationId: market.variations[0]!.id, grade: 3, parts });
    const [first] = explainWorth(fitted, subject, 'restored');
    expect(first!.adjustments.find(({ what }) => what === 'fidelity')!.factor).toBeCloseTo(0.94 * 0.92, 9);
  });

  it('is bounded, and empty where nothing is known of the car', () => {
    const subject = subjectOf({ variationId: market.variations[0]!.id });
    expect(explainWorth(fitted, subject, 'asFound', 5)).toEqual(
      explainWorth(fitted, subject, 'asFound').slice(0, 5),
    );
    expect(explainWorth(fitted, subjectOf({}), 'asFound')).toEqual([]);
  });
});

describe('recordWeights', () => {
  it('gives the variation’s own sales its credibility, and something of its casting’s', () => {
    const { id, castingId } = market.variations[0]!;
    const { index, slots } = fitted.inside;
    const place = index.variationPlace.get(id)!;
    const weights = recordWeights(fitted, place, index.castingPlace.get(castingId)!, 10);
    const own = weights.filter((_, i) => slots[i] === place).reduce((a, b) => a + b, 0);
    const { shares } = valueCar(fitted, subjectOf({ variationId: id })).evidence;
    expect(own).toBeGreaterThan(shares.variation);
    expect(own).toBeLessThan(shares.variation + shares.casting + shares.series + shares.everything);
  });
});

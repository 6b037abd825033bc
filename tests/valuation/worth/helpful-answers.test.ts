import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { Market, SaleRecord, Subject } from '../../../valuation/types.ts';
import { helpfulAnswers } from '../../../valuation/worth/helpful-answers.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { saleOf } from '../../helpers/markets/market-arbitrary.ts';

const assumptions = defaultAssumptions('USD');
const on = '2025-06-30';
const castings = [1, 2, 3, 4, 5].map(id => ({ id, seriesId: id < 3 ? 1 : id < 5 ? 2 : 3 }));
const marketOf = (sales: SaleRecord[]): Market => ({
  reportingCurrency: 'USD',
  castings,
  variations: castings.map(({ id }) => ({ id: id * 10, castingId: id, rarity: 'common' as const })),
  sales,
  rates: [],
});
const carOf = (id: number, castingId: number | null, grade: number | null = 6): Subject =>
  ({
    id,
    castingId,
    variationId: null,
    candidates: [],
    grade,
    finishState: 'original',
    parts: [],
    ownWorth: null,
    plan: null,
    overruled: [],
    overruledReason: '',
  }) as unknown as Subject;
const valuedIn = (market: Market, cars: Subject[]) => {
  const fitted = fitMarket(market, assumptions, on);
  return cars.filter(car => valueCar(fitted, car).asFound !== null).length;
};
const sale = (id: number, castingId: number, soldOn = on) =>
  saleOf({ id, castingId, variationId: null, soldOn, source: 'unheard of', reliability: null });

describe('the answers that would help', () => {
  it('begin with the one that gives the most cars a value', () => {
    const cars = [carOf(1, 1, 4), carOf(2, 1, 8), carOf(3, 2, 5), carOf(4, 3), carOf(5, null)];
    const names = [
      { name: 'Larkspur Van', cars: 2, valued: 2 },
      { name: 'Nobody', cars: 9, valued: 0 },
    ];
    expect(helpfulAnswers(fitMarket(marketOf([]), assumptions, on), cars, names)).toEqual([
      { kind: 'belief', seriesId: 1, grade: 5, cars: 3 },
      { kind: 'name', name: 'Larkspur Van', waiting: 2, cars: 2 },
      { kind: 'sales', castingId: 1, seriesId: 1, grade: 6, sales: 1, cars: 2 },
      { kind: 'belief', seriesId: 2, grade: 6, cars: 1 },
      { kind: 'sales', castingId: 3, seriesId: 2, grade: 6, sales: 1, cars: 1 },
      { kind: 'name', name: 'Nobody', waiting: 9, cars: 0 },
    ]);
  });

  it('ask nothing about cars that have a value or a figure of their owner’s', () => {
    const known = marketOf([sale(1, 1), sale(2, 1), sale(3, 2)]);
    const own = { ...carOf(2, 3), ownWorth: { low: 1, mid: 2, high: 3 } };
    expect(helpfulAnswers(fitMarket(known, assumptions, on), [carOf(1, 2), own], [])).toEqual([]);
  });

  it('give as many cars a value as they say, no fewer sales do', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 2010, max: 2024 })), {
          maxLength: 4,
        }),
        fc.array(fc.option(fc.integer({ min: 1, max: 5 })), { minLength: 1, maxLength: 8 }),
        (sold, owned) => {
          const market = marketOf(sold.map(([casting, year], i) => sale(i + 1, casting, `${year}-06-30`)));
          const cars = owned.map((casting, i) => carOf(i + 1, casting));
          const before = valuedIn(market, cars);
          for (const answer of helpfulAnswers(fitMarket(market, assumptions, on), cars, [])) {
            const gained = (changed: Market) => valuedIn(changed, cars) - before;
            if (answer.kind === 'belief')
              expect(
                gained({
                  ...market,
                  beliefs: [
                    {
                      id: 1,
                      level: 'series',
                      of: answer.seriesId,
                      grade: answer.grade,
                      finishState: 'original',
                      low: 2000,
                      high: 4000,
                      currency: 'USD',
                      believedOn: on,
                    },
                  ],
                }),
              ).toBe(answer.cars);
            if (answer.kind === 'sales') {
              const more = (count: number) => ({
                ...market,
                sales: [
                  ...market.sales,
                  ...Array.from({ length: count }, (_, i) => sale(100 + i, answer.castingId)),
                ],
              });
              expect(gained(more(answer.sales))).toBe(answer.cars);
              const ofCasting = cars.filter(({ castingId }) => castingId === answer.castingId);
              expect(valuedIn(more(answer.sales - 1), ofCasting)).toBe(0);
            }
          }
        },
      ),
    );
  });
});

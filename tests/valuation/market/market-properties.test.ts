import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defaultAssumptions, fitMarket, type Market, valueCar } from '../../../valuation/index.ts';
import type { FittedMarket } from '../../../valuation/market/fitted-market.ts';
import type { Worth } from '../../../valuation/types.ts';
import { finishStates, grades } from '../../../valuation/words.ts';
import { marketArbitrary, on, saleOf, subjectOf } from '../../helpers/markets/market-arbitrary.ts';

const assumptions = { ...defaultAssumptions('USD'), widestEstimate: 1e6 };
const trending = { ...assumptions, index: 'trend' as const };

const worthOf = (fitted: FittedMarket, known: Parameters<typeof subjectOf>[0]): Worth | null =>
  valueCar(fitted, subjectOf(known)).asFound;

const pickVariation = (market: Market, place: number) => market.variations[place % market.variations.length]!;

const cars = fc.record({
  place: fc.nat(1000),
  grade: fc.constantFrom(...grades),
  finishState: fc.constantFrom(...finishStates),
});

describe('a fitted market', () => {
  it('is never made less sure of a car by a sale that agrees with its estimate', () => {
    fc.assert(
      fc.property(marketArbitrary, cars, fc.boolean(), (market, { place, grade, finishState }, withTrend) => {
        const set = withTrend ? trending : assumptions;
        const variation = pickVariation(market, place);
        const car = { variationId: variation.id, grade, finishState };
        const before = worthOf(fitMarket(market, set, on), car);
        fc.pre(before !== null);
        const agreeing = saleOf({
          id: 10_000,
          soldOn: on,
          price: Math.round(Math.exp(before!.logMean)),
          castingId: variation.castingId,
          variationId: variation.id,
          grade,
          finishState,
        });
        const after = worthOf(fitMarket({ ...market, sales: [...market.sales, agreeing] }, set, on), car)!;
        expect(after.logSd).toBeLessThanOrEqual(before!.logSd);
      }),
      { numRuns: 300 },
    );
  });

  it('never values a better grade less: low, mid and high', () => {
    fc.assert(
      fc.property(marketArbitrary, fc.nat(1000), (market, place) => {
        const fitted = fitMarket(market, assumptions, on);
        const variation = pickVariation(market, place);
        const ways = [
          { variationId: variation.id },
          { castingId: variation.castingId },
          { candidates: market.variations.slice(0, 3).map(({ id }) => id) },
        ];
        for (const known of ways)
          for (const finishState of finishStates) {
            const worths = grades.map(grade => worthOf(fitted, { ...known, grade, finishState }));
            fc.pre(worths[0] !== null);
            for (let i = 1; i < worths.length; i++)
              for (const end of ['low', 'mid', 'high'] as const)
                expect(worths[i]![end]).toBeGreaterThanOrEqual(worths[i - 1]![end]);
          }
      }),
      { numRuns: 60 },
    );
  });

  it('scales with its prices', () => {
    fc.assert(
      fc.property(marketArbitrary, cars, fc.integer({ min: 2, max: 1000 }), (market, car, k) => {
        const known = { ...car, variationId: pickVariation(market, car.place).id };
        const scaled = { ...market, sales: market.sales.map(sale => ({ ...sale, price: sale.price * k })) };
        const one = worthOf(fitMarket(market, assumptions, on), known);
        const many = worthOf(fitMarket(scaled, assumptions, on), known);
        fc.pre(one !== null);
        expect(many!.logMean).toBeCloseTo(one!.logMean + Math.log(k), 8);
        expect(many!.logSd).toBeCloseTo(one!.logSd, 8);
        for (const end of ['low', 'mid', 'high'] as const)
          expect(Math.abs(many![end] - one![end] * k)).toBeLessThanOrEqual(k / 2 + 1);
      }),
      { numRuns: 100 },
    );
  });

  it('does not mind the currency of its records when the rates are consistent', () => {
    fc.assert(
      fc.property(marketArbitrary, cars, (market, car) => {
        const known = { ...car, variationId: pickVariation(market, car.place).id };
        // One Bahraini dinar, of 1,000 fils, for 2.5 dollars: 100 cents are 400 fils. Yen have no decimals.
        const others: Market = {
          ...market,
          rates: [
            { currency: 'BHD', on: '2010-01-01', rate: 2.5 },
            { currency: 'JPY', on: '2010-01-01', rate: 0.01 },
          ],
          sales: market.sales.map(sale =>
            sale.id % 3 === 0
              ? { ...sale, currency: 'BHD', price: sale.price * 4 }
              : sale.id % 3 === 1
                ? { ...sale, currency: 'JPY' }
                : sale,
          ),
        };
        const plain = worthOf(fitMarket(market, assumptions, on), known);
        const mixed = worthOf(fitMarket(others, assumptions, on), known);
        fc.pre(plain !== null);
        expect(mixed!.logMean).toBeCloseTo(plain!.logMean, 8);
        expect(mixed!.logSd).toBeCloseTo(plain!.logSd, 8);
      }),
      { numRuns: 100 },
    );
  });

  it('does not mind the order in which anything is given, to the last bit', () => {
    const shuffled = <T>(list: readonly T[], seed: number) =>
      list
        .map((item, i) => ({ item, key: Math.sin((i + 1) * (seed + 1)) }))
        .sort((a, b) => a.key - b.key)
        .map(({ item }) => item);
    fc.assert(
      fc.property(marketArbitrary, cars, fc.nat(1000), (market, car, seed) => {
        const known = { ...car, variationId: pickVariation(market, car.place).id };
        const other = {
          ...market,
          castings: shuffled(market.castings, seed),
          variations: shuffled(market.variations, seed),
          sales: shuffled(market.sales, seed),
        };
        const value = (m: Market) =>
          JSON.stringify(valueCar(fitMarket(m, assumptions, on), subjectOf(known)));
        expect(value(other)).toBe(value(market));
      }),
      { numRuns: 100 },
    );
  });

  it('gives the same bytes for the same input, whatever was valued in between', () => {
    fc.assert(
      fc.property(marketArbitrary, fc.array(cars, { minLength: 1, maxLength: 8 }), (market, list) => {
        const value = (fitted: FittedMarket, car: (typeof list)[number]) =>
          JSON.stringify(
            valueCar(fitted, subjectOf({ ...car, variationId: pickVariation(market, car.place).id })),
          );
        const fitted = fitMarket(market, trending, on);
        const forwards = list.map(car => value(fitted, car));
        const again = fitMarket(market, trending, on);
        const backwards = [...list].reverse().map(car => value(again, car));
        expect(backwards.reverse()).toEqual(forwards);
      }),
      { numRuns: 60 },
    );
  });

  it("puts a variation without sales between its casting's bounds, moved by its rarity", () => {
    fc.assert(
      fc.property(marketArbitrary, cars, (market, { place, grade, finishState }) => {
        const { castingId } = pickVariation(market, place);
        const plain = { id: 900, castingId, rarity: null };
        const scarce = { id: 901, castingId, rarity: 'scarce' as const };
        const wider = { ...market, variations: [...market.variations, plain, scarce] };
        const fitted = fitMarket(wider, assumptions, on);
        const casting = worthOf(fitted, { variationId: 900, grade, finishState });
        const unsold = worthOf(fitted, { variationId: 901, grade, finishState });
        fc.pre(casting !== null);
        const factor = assumptions.rarityFactors.scarce;
        expect(unsold!.mid).toBeGreaterThan(casting!.low * factor);
        expect(unsold!.mid).toBeLessThan(casting!.high * factor);
      }),
      { numRuns: 200 },
    );
  });
});

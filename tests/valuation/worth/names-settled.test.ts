import fc from 'fast-check';
import { expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { Market, Purchase } from '../../../valuation/types.ts';
import { isEnough } from '../../../valuation/worth/evidence-width.ts';
import { type NameToSettle, valuedByNames } from '../../../valuation/worth/names-settled.ts';
import { saleOf } from '../../helpers/markets/market-arbitrary.ts';

const assumptions = defaultAssumptions('USD');
const on = '2025-06-30';

/** Castings 1 and 2 are known; names 3 to 5 wait, of which the first two would stand in the known series. */
const seriesOf = [0, 1, 1, 1, 1, 2];
const known = (castingId: number) => castingId < 3;

interface Drawn {
  sold: number[];
  /** The castings of the cars of each purchase. */
  bought: number[][];
}
const worlds = (carsOfLot: number): fc.Arbitrary<Drawn> => {
  const casting = fc.integer({ min: 1, max: 5 });
  return fc.record({
    sold: fc.array(casting, { maxLength: 3 }),
    bought: fc.array(fc.array(casting, { minLength: 1, maxLength: carsOfLot }), { maxLength: 4 }),
  });
};

/** The market with all names settled, and with these names hidden as they wait. */
const marketsOf = ({ sold, bought }: Drawn) => {
  const sales = sold.map((castingId, i) =>
    saleOf({ id: i + 1, castingId, variationId: null, soldOn: on, source: 'auction', reliability: null }),
  );
  const purchases = bought.map(
    (castings, lot): Purchase => ({
      lotId: lot + 1,
      boughtOn: '2025-01-10',
      currency: 'USD',
      total: 1234 + lot,
      price: null,
      cars: castings.map((castingId, i) => ({
        id: 10 * (lot + 1) + i,
        castingId,
        variationId: null,
        grade: 6,
        finishState: 'original',
        missingParts: [],
        reproductionParts: [],
      })),
    }),
  );
  const castings = [1, 2, 3, 4, 5].map(id => ({ id, seriesId: seriesOf[id] ?? 0 }));
  const settled: Market = { reportingCurrency: 'USD', castings, variations: [], sales, rates: [], purchases };
  const waiting: Market = {
    ...settled,
    castings: castings.filter(({ id }) => known(id)),
    sales: sales.filter(sale => known(sale.castingId)),
    purchases: purchases.map(purchase => ({
      ...purchase,
      cars: purchase.cars.map(car => ({
        ...car,
        castingId: known(car.castingId ?? 0) ? car.castingId : null,
      })),
    })),
  };
  const names = [3, 4, 5].map((id): NameToSettle => {
    const carIds = purchases.flatMap(({ cars }) =>
      cars.flatMap(car => (car.castingId === id ? [car.id] : [])),
    );
    return {
      castingId: null,
      seriesId: seriesOf[id] === 1 ? 1 : null,
      home: `series ${seriesOf[id]}`,
      carIds,
      lacking: carIds.length,
      sales: sales.filter(({ castingId }) => castingId === id),
    };
  });
  return { settled, waiting, names };
};

/** How many cars under the names have enough evidence once the market is as it is here. */
const haveEnough = (market: Market, names: readonly NameToSettle[]): number => {
  const fitted = fitMarket(market, assumptions, on);
  return [3, 4, 5].reduce((sum, id, at) => {
    const casting = fitted.inside.index.castingPlace.get(id) ?? -1;
    return sum + (isEnough(fitted, { variation: -1, casting }) ? (names[at]?.lacking ?? 0) : 0);
  }, 0);
};

const promised = (world: Drawn) => {
  const { settled, waiting, names } = marketsOf(world);
  const { alone, together } = valuedByNames(fitMarket(waiting, assumptions, on), waiting, names);
  expect(alone.reduce((sum, one) => sum + one, 0)).toBeLessThanOrEqual(together);
  return { together, came: haveEnough(settled, names) };
};

it('promises as many cars a value as have one in the market that is fitted with the names settled', () => {
  fc.assert(
    fc.property(worlds(1), world => {
      const { together, came } = promised(world);
      expect(together).toBe(came);
    }),
  );
});

it('shares a lot before the fit does, and is seldom wrong by it', () => {
  const outcomes = fc.sample(worlds(3), { numRuns: 60, seed: 1968 }).map(promised);
  const right = outcomes.filter(({ together, came }) => together === came);
  expect(right.length / outcomes.length).toBeGreaterThan(0.95);
  expect(outcomes.some(({ together }) => together > 0)).toBe(true);
});

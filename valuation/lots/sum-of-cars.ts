import type { FittedMarket } from '../market/fitted-market.ts';
import type { Range, Worth } from '../types.ts';
import { type PlacedCar, sharedFactors } from '../worth/shared-factors.ts';
import { lotWorth, rangeOfSum } from './lot-worth.ts';

export interface CarInSum {
  car: PlacedCar;
  worth: Worth;
}

const add = (sums: Map<number, number>, key: number, amount: number) =>
  sums.set(key, (sums.get(key) ?? 0) + amount);
const squares = (sums: Map<number, number>) => [...sums.values()].reduce((sum, x) => sum + x * x, 0);

/**
 * The correlation, one for all pairs, that gives the sum of these cars the variance which the fit's posterior
 * gives it: the covariances of the logs of every two cars, weighted by what the cars are expected to bring,
 * over the products of their deviations. Cars share the effects of grade, finish and rarity, and the levels
 * of their variation, casting and series; figures of the owner's own share nothing with the market and all
 * with each other. 0 for fewer than two cars.
 */
export const sharedCorrelation = (fitted: FittedMarket, cars: readonly CarInSum[]): number => {
  let effects: Float64Array | null = null;
  const ofVariations = new Map<number, number>();
  const ofCastings = new Map<number, number>();
  const ofSeries = new Map<number, number>();
  let own = 0;
  let alone = 0;
  let all = 0;
  let single = 0;
  for (const { car, worth } of cars) {
    const expected = Math.exp(worth.logMean + worth.logSd ** 2 / 2);
    all += expected * worth.logSd;
    single += (expected * worth.logSd) ** 2;
    if (worth.own) {
      own += expected * worth.sharedSd;
      alone += (expected * worth.sharedSd) ** 2;
      continue;
    }
    const shared = sharedFactors(fitted, car);
    if (!shared) continue;
    effects ??= new Float64Array(shared.effects.length);
    for (let a = 0; a < effects.length; a++) effects[a]! += expected * shared.effects[a]!;
    add(ofVariations, shared.variation, expected * shared.ofVariation);
    add(ofCastings, shared.casting, expected * shared.ofCasting);
    add(ofSeries, shared.series, expected * shared.ofSeries);
    alone += expected * expected * shared.variance;
  }
  const together =
    own * own +
    (effects?.reduce((sum, x) => sum + x * x, 0) ?? 0) +
    squares(ofVariations) +
    squares(ofCastings) +
    squares(ofSeries);
  const pairs = all * all - single;
  return pairs > 0 ? Math.min(1, Math.max(0, (together - alone) / pairs)) : 0;
};

export interface CarsSum extends Range {
  /** The correlation that stands for what the cars share. */
  correlation: number;
}

/**
 * What several cars are expected to bring together, in minor units of the reporting currency: `mid` is the
 * mean of the sum, which is what a total is for (the single mids are medians, and their sum is too low),
 * `low` and `high` its 80 % range. One function for totals and bids. Zeros for none.
 */
export const sumOfCars = (fitted: FittedMarket, cars: readonly CarInSum[]): CarsSum => {
  if (cars.length === 0) return { low: 0, mid: 0, high: 0, correlation: 0 };
  const correlation = sharedCorrelation(fitted, cars);
  const worths = cars.map(({ worth }) => worth);
  return { ...rangeOfSum(lotWorth(worths, correlation)), correlation };
};

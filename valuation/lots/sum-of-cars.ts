import type { FittedMarket } from '../market/fitted-market.ts';
import type { Range, Worth } from '../types.ts';
import { type PlacedCar, sharedFactors } from '../worth/shared-factors.ts';
import { type LogWorths, logWorths, rangeOfSum, worthOfParts } from './lot-worth.ts';

export interface CarInSum {
  car: PlacedCar;
  worth: Worth;
}

/** What some cars share with others by a place (a variation, casting or series), place by place. */
interface OfPlaces {
  places: Int32Array;
  sums: Float64Array;
}

/** What some cars add to a sum; it follows from them and the market alone, so that it can be held. */
export interface PartOfSum {
  worths: LogWorths;
  /** What they share by the effects of grade, finish and rarity; null where none shares any. */
  effects: Float64Array | null;
  ofVariations: OfPlaces;
  ofCastings: OfPlaces;
  ofSeries: OfPlaces;
  /** Figures of the owner's own share with each other alone. */
  own: number;
  /** Sums over the cars of the squares of what each shares, of all deviations, and of their squares. */
  alone: number;
  all: number;
  single: number;
}

const ofPlaces = (sums: Map<number, number>): OfPlaces => ({
  places: Int32Array.from(sums.keys()),
  sums: Float64Array.from(sums.values()),
});

/** What these cars add to a sum. */
export const partOfSum = (fitted: FittedMarket, cars: readonly CarInSum[]): PartOfSum => {
  let effects: Float64Array | null = null;
  const ofVariations = new Map<number, number>();
  const ofCastings = new Map<number, number>();
  const ofSeries = new Map<number, number>();
  const add = (sums: Map<number, number>, place: number, amount: number) =>
    sums.set(place, (sums.get(place) ?? 0) + amount);
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
  return {
    worths: logWorths(cars.map(({ worth }) => worth)),
    effects,
    ofVariations: ofPlaces(ofVariations),
    ofCastings: ofPlaces(ofCastings),
    ofSeries: ofPlaces(ofSeries),
    ...{ own, alone, all, single },
  };
};

/** Sum over places of the square of what all parts have there; −1, an unknown place, is one as well. */
const squares = (parts: readonly OfPlaces[]): number => {
  let last = -1;
  for (const { places } of parts) for (let i = 0; i < places.length; i++) last = Math.max(last, places[i]!);
  const all = new Float64Array(last + 2);
  for (const { places, sums } of parts)
    for (let i = 0; i < places.length; i++) all[places[i]! + 1]! += sums[i]!;
  return all.reduce((sum, x) => sum + x * x, 0);
};

const correlationOf = (parts: readonly PartOfSum[]): number => {
  const known = parts.flatMap(part => part.effects ?? []);
  const effects = new Float64Array(known[0]?.length ?? 0);
  for (const one of known) for (let a = 0; a < effects.length; a++) effects[a]! += one[a]!;
  const total = (of: 'own' | 'alone' | 'all' | 'single') => parts.reduce((sum, part) => sum + part[of], 0);
  const together =
    total('own') ** 2 +
    effects.reduce((sum, x) => sum + x * x, 0) +
    squares(parts.map(part => part.ofVariations)) +
    squares(parts.map(part => part.ofCastings)) +
    squares(parts.map(part => part.ofSeries));
  const pairs = total('all') ** 2 - total('single');
  return pairs > 0 ? Math.min(1, Math.max(0, (together - total('alone')) / pairs)) : 0;
};

/**
 * The correlation, one for all pairs, that gives the sum of these cars the variance which the fit's posterior
 * gives it: the covariances of the logs of every two cars, weighted by what the cars are expected to bring,
 * over the products of their deviations. Cars share the effects of grade, finish and rarity, and the levels
 * of their variation, casting and series; figures of the owner's own share nothing with the market and all
 * with each other. 0 for fewer than two cars.
 */
export const sharedCorrelation = (fitted: FittedMarket, cars: readonly CarInSum[]): number =>
  correlationOf([partOfSum(fitted, cars)]);

export interface CarsSum extends Range {
  /** The correlation that stands for what the cars share. */
  correlation: number;
}

/** `sumOfCars` of the cars of several parts together, all of one fit. */
export const sumOfParts = (parts: readonly PartOfSum[]): CarsSum => {
  const worths = parts.map(part => part.worths);
  if (worths.every(({ means }) => means.length === 0)) return { low: 0, mid: 0, high: 0, correlation: 0 };
  const correlation = correlationOf(parts);
  return { ...rangeOfSum(worthOfParts(worths, correlation)), correlation };
};

/**
 * What several cars are expected to bring together, in minor units of the reporting currency: `mid` is the
 * mean of the sum, which is what a total is for (the single mids are medians, and their sum is too low),
 * `low` and `high` its 80 % range. One function for totals and bids. Zeros for none.
 */
export const sumOfCars = (fitted: FittedMarket, cars: readonly CarInSum[]): CarsSum =>
  sumOfParts([partOfSum(fitted, cars)]);

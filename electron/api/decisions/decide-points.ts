import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import { gainBend } from '../../../valuation/decision/gain-bend.ts';
import type { Currency, Minor } from '../../../valuation/index.ts';
import { type Recommendation, recommendations } from '../../../valuation/words.ts';
import type { DecidePoints } from '../views.ts';
import type { DecideCars } from './decide-cars.ts';

/** So many points are answered at most, beside those that are asked for by name. */
export const mostPoints = 2000;

interface Point {
  car: BriefCar;
  gain: Minor;
  probability: number;
  cost: Minor;
  /** Its place among the recommendations. */
  mark: number;
  cars: number;
}

const markOf = (advice: Recommendation | undefined) => (advice ? recommendations.indexOf(advice) : -1);

const pointsOf = (list: DecideCars, cars: readonly BriefCar[]): Point[] => {
  const points: Point[] = [];
  const gains = list.figures.column(({ weighed }) => weighed.shown?.expectedGain);
  const probabilities = list.figures.column(({ weighed }) => weighed.shown?.probability);
  const costs = list.figures.column(({ weighed }) => weighed.shown?.cost.mid);
  for (const car of cars) {
    const [gain, probability, cost] = [gains(car.id), probabilities(car.id), costs(car.id)];
    if (gain === undefined || probability === undefined || cost === undefined) continue;
    points.push({ car, gain, probability, cost, mark: markOf(list.recommendationOf(car.id)), cars: 1 });
  }
  return points;
};

const extent = (values: Float64Array) => {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low, span: high - low || 1 };
};

/** In each direction so many cells at first, and by so much fewer where too many have a car. */
const atFirst = { across: 220, up: 110, fewer: 0.8 };

/**
 * Of many points one for each cell of a grid and each recommendation, with the number of those for which it stands: the
 * first of the list. No cell that has a car is left without, so that whatever stands alone is there.
 */
const thinned = (points: readonly Point[], currency: Currency, most: number): Point[] => {
  const bend = gainBend(currency);
  const gains = Float64Array.from(points, ({ gain }) => bend(gain));
  const chances = Float64Array.from(points, ({ probability }) => probability);
  const [x, y] = [extent(gains), extent(chances)];
  for (let { across, up } = atFirst; ; across *= atFirst.fewer, up *= atFirst.fewer) {
    const cells = new Map<number, Point>();
    const [columns, rows] = [Math.floor(across) + 1, Math.floor(up) + 1];
    for (const [i, point] of points.entries()) {
      const column = Math.floor(((gains[i]! - x.low) / x.span) * across);
      const row = Math.floor(((chances[i]! - y.low) / y.span) * up);
      const cell = (point.mark * rows + row) * columns + column;
      const found = cells.get(cell);
      if (found) found.cars += 1;
      else cells.set(cell, { ...point });
      if (cells.size > most) break;
    }
    if (cells.size <= most) return [...cells.values()];
  }
};

/**
 * The cars of the chart. Up to `mostPoints` each is a point; beyond, one stands for those close about it, but each of
 * `also` for itself.
 */
export const decidePoints = (
  list: DecideCars,
  cars: readonly BriefCar[],
  also: ReadonlySet<number>,
  currency: Currency,
): DecidePoints => {
  const all = pointsOf(list, cars);
  const few = all.length <= mostPoints;
  const points = few
    ? all
    : [
        ...all.filter(({ car }) => also.has(car.id)),
        ...thinned(also.size === 0 ? all : all.filter(({ car }) => !also.has(car.id)), currency, mostPoints),
      ];
  return {
    ids: points.map(({ car }) => car.id),
    gains: points.map(({ gain }) => gain),
    probabilities: points.map(({ probability }) => Math.round(probability * 1000) / 1000),
    costs: points.map(({ cost }) => cost),
    recommendations: points.map(({ mark }) => mark),
    cars: points.map(({ cars: count }) => count),
    weighed: all.length,
    lacking: cars.length - all.length,
    highestCost: all.reduce((most, { cost }) => Math.max(most, cost), 0),
  };
};

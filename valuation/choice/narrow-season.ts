import { type Limit, limitsOf } from './season-limits.ts';
import type { SeasonCar, SeasonLimits, SeasonOption } from './season-types.ts';

/** The cars to look at one by one. */
export interface NarrowedSeason {
  cars: readonly SeasonCar[];
  /** What no set that has any of the other cars can gain more than; null where there are no others, or none can be in. */
  bound: number | null;
}

interface Narrowing {
  /** So many cars at least, where there are more. */
  most: number;
  /** What one more unit of each limit would add, were cars chosen in part. */
  pricesOf: (cars: readonly SeasonCar[], limits: readonly Limit[]) => Promise<readonly number[]>;
}

/** By so many rounds the prices have settled, or they are good enough for a bound. */
const mostRounds = 8;
const tiny = 1e-9;

/** The places of the highest, the first of equals first. */
const highest = (values: Float64Array, count: number): number[] =>
  Array.from(values, (_, place) => place)
    .sort((a, b) => values[b]! - values[a]! || a - b)
    .slice(0, count);

const mostOf = (car: SeasonCar, worthOf: (option: SeasonOption) => number): number =>
  car.options.reduce((most, option) => Math.max(most, worthOf(option)), Number.NEGATIVE_INFINITY);

/**
 * Where there is room for a number of cars and nothing else is scarce, those that gain most, each by what gains most,
 * are the best set.
 */
const byGainAlone = (cars: readonly SeasonCar[], room: number): SeasonCar[] => {
  const gains = Float64Array.from(cars, car =>
    car.must ? Number.POSITIVE_INFINITY : mostOf(car, ({ gain }) => gain),
  );
  return highest(gains, room).map(place => {
    const car = cars[place]!;
    const [first, ...others] = car.options;
    const best = others.reduce((most, one) => (one.gain > most.gain ? one : most), first!);
    return { ...car, options: [best] };
  });
};

/**
 * Of many cars those among which the best set is to be looked for, and what any set with another car can gain at most.
 * The prices of the limits are found from some cars, those that at these prices gain more than they take join them, until none
 * does (column generation); then every set gains at most the limits at their prices and what each car gains beyond them, and a
 * set with a car that does not, less by what that car lacks. All cars are returned where they are few. Source: Dantzig &
 * Wolfe (1960), Operations Research 8; Geoffrion (1974), Mathematical Programming Study 2.
 */
export const narrowSeason = async (
  cars: readonly SeasonCar[],
  limits: SeasonLimits,
  { most, pricesOf }: Narrowing,
): Promise<NarrowedSeason> => {
  if (cars.length <= most) return { cars, bound: null };
  const all = limitsOf(cars, limits);
  const inOrder = (chosen: Iterable<SeasonCar>) => [...chosen].sort((a, b) => a.id - b.id);
  if (all.every(({ name }) => name === 'cars')) {
    // One more than there is room for, so that the next car can be told.
    const room = Math.max(most, (all[0]?.limit ?? cars.length) + 1);
    return { cars: inOrder(byGainAlone(cars, room)), bound: null };
  }
  const must = cars.filter(car => car.must);
  const shareOf = (car: SeasonCar, option: SeasonOption) =>
    all.reduce((sum, { limit, use }) => sum + use(car, option) / Math.max(limit, tiny), tiny);
  const ranks = Float64Array.from(cars, car => mostOf(car, option => option.gain / shareOf(car, option)));
  const kept = new Set([...must, ...highest(ranks, most).map(place => cars[place]!)]);
  const beyond = new Float64Array(cars.length);
  let bound = 0;
  for (let round = 0; round < mostRounds; round += 1) {
    const some = inOrder(kept);
    const under = limitsOf(some, limits);
    const prices = await pricesOf(some, under);
    const priced = under.flatMap(({ use }, i) => (prices[i]! > 0 ? [{ use, price: prices[i]! }] : []));
    bound = under.reduce((sum, { limit }, i) => sum + limit * prices[i]!, 0);
    cars.forEach((car, place) => {
      beyond[place] = mostOf(car, option =>
        priced.reduce((left, { use, price }) => left - price * use(car, option), option.gain),
      );
      bound += car.must ? beyond[place] : Math.max(0, beyond[place]);
    });
    const joining = highest(beyond, kept.size * 2).filter(
      place => beyond[place]! > tiny && !kept.has(cars[place]!),
    );
    if (joining.length === 0) break;
    for (const place of joining.slice(0, kept.size)) kept.add(cars[place]!);
  }
  const gaining = beyond.filter(one => one > 0).length;
  const last = new Set([...must, ...highest(beyond, Math.max(most, 2 * gaining)).map(place => cars[place]!)]);
  const lacking = cars.reduce(
    (least, car, place) => (last.has(car) ? least : Math.max(least, beyond[place]!)),
    Number.NEGATIVE_INFINITY,
  );
  return {
    cars: inOrder(last),
    bound: last.size === cars.length ? null : bound + Math.min(0, lacking),
  };
};

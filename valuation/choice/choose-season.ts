import { checkFinite } from '../statistics/check-input.ts';
import type { Minor } from '../types.ts';
import type { Option } from '../words.ts';
import { leastLoss } from './least-loss.ts';
import { type Choice, loadSolver, openLimitsModel } from './limits-model.ts';
import { narrowSeason } from './narrow-season.ts';
import { type Limit, limitsOf, partsOf } from './season-limits.ts';
import type { Pair, SeasonCar, SeasonLimits, SeasonOption } from './season-types.ts';

export interface TakenCar extends SeasonOption {
  id: number;
}

/** A car that would come next, what it would add, and what there would have to be more of. */
export interface NextCar extends TakenCar {
  /** What it is in the season with already, and would no longer be. */
  instead: Exclude<Option, 'leave'> | null;
  adds: number;
  /** `place`: there is no room for one more car; `ofCasting`: for no more of its casting. */
  needs: {
    hours: number;
    cash: Minor;
    parts: Record<string, number>;
    place: boolean;
    ofCasting: boolean;
  };
}

export interface ChosenSeason {
  /** In the order in which to take them: most gain for its share of the limits first. */
  taken: TakenCar[];
  gain: number;
  used: { hours: number; cash: Minor; parts: Record<string, number> };
  /** The most gain for what it needs first; at most `mostNext`. */
  next: NextCar[];
  /**
   * Relative distance from the optimum that is not ruled out; left out when it is within a tenth of a per
   * cent.
   */
  gapLeft?: number;
  /**
   * Where not all cars that gain were looked at one by one: how many were, of how many. What the others could add is
   * bounded, and counts in `gapLeft`.
   */
  considered?: { cars: number; of: number };
}

export interface SeasonOptions {
  /** Looked at before solving; a host that solves in a worker uses `cancelled` to stop within it. */
  signal?: AbortSignal;
  cancelled?: () => boolean;
  /** Relative distance from the optimum that is good enough. */
  gap?: number;
  /** Of more cars that gain, so many are looked at one by one: those that gain most for what they take. */
  mostConsidered?: number;
}

const goodEnough = 0.001;
/**
 * Simplex iterations, some two seconds for 200 cars: work and not time, so that the answer is the same on
 * every machine.
 */
const mostWork = 5000;
/** Sets of changes that are looked at before branching, some two seconds; among more candidates branching is quick. */
const mostSets = 40_000_000;
const fewPairs = 2000;
const mostNext = 3;
const usuallyConsidered = 2000;
/** Rounding of sums that is no want of anything. */
const tiny = 1e-9;

const checkCars = (cars: readonly SeasonCar[]): void => {
  const ids = new Set<number>();
  for (const { id, options, must } of cars) {
    if (ids.has(id)) throw new RangeError(`car ${id} is among the candidates twice`);
    ids.add(id);
    if (must && options.length === 0)
      throw new RangeError(`car ${id} must be chosen, and nothing can be done with it`);
    for (const { option, gain, hours, cash, parts } of options) {
      checkFinite(gain, `gain of car ${id}, ${option},`);
      for (const [name, use] of Object.entries({ hours, cash, ...parts })) {
        checkFinite(use, `${name} of car ${id}, ${option},`);
        if (use < 0)
          throw new RangeError(`${name} of car ${id}, ${option}, must not be below zero, and is ${use}`);
      }
    }
  }
};

const cancelledChoice = () => new DOMException('The choice was cancelled', 'AbortError');
const haltedBy =
  ({ signal, cancelled }: SeasonOptions) =>
  () =>
    signal?.aborted === true || cancelled?.() === true;
const beyondLimits = () =>
  new RangeError('the cars that must be chosen cannot all be kept within the limits');

/** The cars with each thing that can be done with them, as candidates of which one at most of each car can be chosen. */
const choiceOf = (
  cars: readonly SeasonCar[],
  limits: readonly Limit[],
): { pairs: Pair[]; choice: Choice } => {
  const pairs: Pair[] = [];
  const groups: { members: number[]; needed: boolean }[] = [];
  for (const car of cars) {
    const members = car.options.map((option): number => pairs.push({ car, option }) - 1);
    if (car.must || members.length > 1) groups.push({ members, needed: car.must === true });
  }
  const choice: Choice = {
    gains: pairs.map(({ option }) => option.gain),
    uses: limits.map(({ use }) => pairs.map(({ car, option }) => use(car, option))),
    limits: limits.map(({ limit }) => limit),
    groups,
  };
  return { pairs, choice };
};

/** What one more unit of each limit would add, were cars chosen in part. */
const pricesOf = async (
  cars: readonly SeasonCar[],
  limits: readonly Limit[],
  halted: () => boolean,
): Promise<readonly number[]> => {
  const relaxation = openLimitsModel(await loadSolver(), choiceOf(cars, limits).choice, false);
  try {
    const relaxed = relaxation.solve({ gap: 0, halted });
    if (relaxed === 'impossible') throw beyondLimits();
    if (relaxed === 'halted') throw cancelledChoice();
    return relaxed.prices;
  } finally {
    relaxation.dispose();
  }
};

/** The choice among few candidates by what it loses at the prices of the limits; undefined where that finds none. */
const solveByPrices = async (
  choice: Choice,
  gap: number,
  halted: () => boolean,
): Promise<boolean[] | undefined> => {
  const relaxation = openLimitsModel(await loadSolver(), choice, false);
  try {
    const relaxed = relaxation.solve({ gap: 0, halted });
    if (relaxed === 'impossible') throw beyondLimits();
    if (relaxed === 'halted') return undefined;
    const search = { choice, prices: relaxed.prices, gap, most: mostSets, halted };
    return leastLoss(search).chosen ?? undefined;
  } finally {
    relaxation.dispose();
  }
};

const solve = async (
  cars: readonly SeasonCar[],
  limits: readonly Limit[],
  { gap = goodEnough, signal, cancelled }: SeasonOptions,
): Promise<{ picked: Pair[]; gapLeft?: number }> => {
  const { pairs, choice } = choiceOf(cars, limits);
  if (pairs.length === 0) return { picked: [] };
  const halted = haltedBy({ signal, cancelled });
  if (pairs.length <= fewPairs && gap > 0) {
    const chosen = await solveByPrices(choice, gap, halted);
    if (chosen) return { picked: pairs.filter((_, j) => chosen[j]) };
  }
  const model = openLimitsModel(await loadSolver(), choice, true);
  try {
    const solved = model.solve({ gap, halted, enough: iterations => iterations > mostWork });
    if (solved === 'halted') throw signal?.reason ?? cancelledChoice();
    if (solved === 'impossible' || !solved.shares) throw beyondLimits();
    const picked = pairs.filter((_, j) => solved.shares![j] === 1);
    return solved.gap > gap + tiny ? { picked, gapLeft: solved.gap } : { picked };
  } finally {
    model.dispose();
  }
};

/**
 * What to do this season: for each car at most one of the things that can be done with it, so that the sum
 * of the expected gains is the largest that hours, cash and scarce parts allow, with at most so many cars
 * in all and of one casting. A multiple-choice knapsack of several limits, solved by branch and cut to a
 * tenth of a per cent. `next` says what one more car would add and need, since a car takes more than one more
 * hour. The same input gives the same answer. Rejects with RangeError on bad figures and, naming the limit
 * where one alone is broken, where the cars that must be in go beyond the limits; with AbortError when
 * cancelled. Source: Sinha & Zoltners (1979), Operations Research 27; HiGHS (highs.dev).
 */
export const chooseSeason = async (
  { cars, limits }: { cars: readonly SeasonCar[]; limits: SeasonLimits },
  options: SeasonOptions = {},
): Promise<ChosenSeason> => {
  checkCars(cars);
  // What gains nothing is not done, unless the car must be in.
  const gaining = cars
    .map(car => ({ ...car, options: car.must ? car.options : car.options.filter(({ gain }) => gain > 0) }))
    .filter(car => car.options.length > 0)
    .sort((a, b) => a.id - b.id);
  const { cars: open, bound } = await narrowSeason(gaining, limits, {
    most: options.mostConsidered ?? usuallyConsidered,
    pricesOf: (some, under) => pricesOf(some, under, haltedBy(options)),
  });
  const all = limitsOf(open, limits);
  const room = all.map(({ name, limit, use }) => {
    const least = open
      .filter(({ must }) => must)
      .reduce((sum, car) => sum + Math.min(...car.options.map(option => use(car, option))), 0);
    const left = limit + tiny * Math.max(1, limit) - least;
    if (left < 0) throw new RangeError(`the cars that must be chosen alone go beyond the limit of ${name}`);
    return left;
  });
  // What fits in by itself nowhere is not looked for: it would only widen the search, without end where little is left.
  const fitting = open
    .map(car => ({
      ...car,
      options: car.must
        ? car.options
        : car.options.filter(option => all.every(({ use }, i) => use(car, option) <= room[i]!)),
    }))
    .filter(car => car.options.length > 0);
  const { picked: found, gapLeft } = await solve(fitting, all, options);
  const byId = new Map(open.map(car => [car.id, car]));
  const picked = found.map(({ car, option }) => ({ car: byId.get(car.id)!, option }));
  const chosen = new Map(picked.map(pair => [pair.car, pair]));
  const left = new Map(
    all.map(one => [one, one.limit - picked.reduce((sum, { car, option }) => sum + one.use(car, option), 0)]),
  );
  /** What a car would need beyond what is left, were this done with it. */
  const lacks = ({ car, option }: Pair) => {
    const now = chosen.get(car);
    return all.map(one => {
      const more = one.use(car, option) - (now ? one.use(car, now.option) : 0) - left.get(one)!;
      return more > tiny * Math.max(1, one.limit) ? more : 0;
    });
  };
  const adds = ({ car, option }: Pair) => option.gain - (chosen.get(car)?.option.gain ?? 0);
  const others = () =>
    open
      .flatMap(car => car.options.map((option): Pair => ({ car, option })))
      .filter(pair => adds(pair) > 0)
      .sort((a, b) => adds(b) - adds(a) || a.car.id - b.car.id);
  // Within the tenth of a per cent something may still fit.
  for (let pair = others().find(one => lacks(one).every(more => more === 0)); pair; ) {
    const now = chosen.get(pair.car);
    for (const one of all) {
      const before = now ? one.use(pair.car, now.option) : 0;
      left.set(one, left.get(one)! - one.use(pair.car, pair.option) + before);
    }
    chosen.set(pair.car, pair);
    pair = others().find(one => lacks(one).every(more => more === 0));
  }
  const share = (amounts: readonly number[]) =>
    all.reduce((sum, { limit }, i) => sum + (amounts[i]! > 0 ? amounts[i]! / Math.max(limit, tiny) : 0), 0);
  const rank = ({ car, option }: Pair) =>
    option.gain / Math.max(share(all.map(one => one.use(car, option))), tiny);
  const taken = [...chosen.values()].sort(
    (a, b) => rank(b) - rank(a) || b.option.gain - a.option.gain || a.car.id - b.car.id,
  );
  const seen = new Set<SeasonCar>();
  const next = others()
    .map(pair => ({ pair, more: lacks(pair) }))
    .sort(
      (a, b) => adds(b.pair) / share(b.more) - adds(a.pair) / share(a.more) || a.pair.car.id - b.pair.car.id,
    )
    .filter(({ pair: { car } }) => !seen.has(car) && seen.add(car))
    .slice(0, mostNext)
    .map(({ pair, more }): NextCar => {
      const lack = (name: string) => more[all.findIndex(one => one.name === name)] ?? 0;
      const parts = Object.keys(limits.parts).filter(part => lack(`part ${part}`) > 0);
      return {
        id: pair.car.id,
        ...pair.option,
        instead: chosen.get(pair.car)?.option.option ?? null,
        adds: adds(pair),
        needs: {
          hours: lack('hours'),
          cash: Math.ceil(lack('cash')),
          parts: Object.fromEntries(parts.sort().map(part => [part, lack(`part ${part}`)])),
          place: lack('cars') > 0,
          ofCasting: lack(`casting ${pair.car.castingId}`) > 0,
        },
      };
    });
  const sum = (of: (option: SeasonOption) => number) =>
    taken.reduce((total, { option }) => total + of(option), 0);
  const gain = sum(option => option.gain);
  const openGap = Math.max(gapLeft ?? 0, bound === null ? 0 : (bound - gain) / Math.max(gain, tiny));
  return {
    taken: taken.map(({ car, option }) => ({ id: car.id, ...option })),
    gain,
    used: {
      hours: sum(({ hours }) => hours),
      cash: sum(({ cash }) => cash),
      parts: Object.fromEntries(
        Object.keys(limits.parts)
          .sort()
          .map(part => [part, sum(option => partsOf(option, part))]),
      ),
    },
    next,
    ...(openGap > (options.gap ?? goodEnough) + tiny && { gapLeft: openGap }),
    ...(open.length < gaining.length && { considered: { cars: open.length, of: gaining.length } }),
  };
};

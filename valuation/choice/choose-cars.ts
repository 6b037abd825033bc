import { checkFinite } from '../statistics/check-input.ts';
import type { Minor } from '../types.ts';
import { type ChoiceOptions, chooseUnderLimits } from './choose-under-limits.ts';

export interface CarCandidate {
  id: number;
  /** Expected gain over leaving it, what it takes of bench hours, cash (minor units) and scarce parts. */
  gain: number;
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
  castingId: number | null;
  must?: boolean;
  mustNot?: boolean;
}

export interface CarLimits {
  hours?: number;
  cash?: Minor;
  /** Stock of each scarce part; a part that is not named here is not scarce. */
  parts: Record<string, number>;
  /** At most so many of one casting. */
  perCasting?: number;
}

export interface ChosenCars {
  /** Ids in the order in which to take them: most gain for its share of the limits first. */
  chosen: number[];
  gain: number;
  used: { hours: number; cash: Minor; parts: Record<string, number> };
  /**
   * Gain that one more hour, `cashUnit` more of cash, or one more part would add; null where there
   * is no such limit.
   */
  worthOfOneMore: { hours: number | null; cash: number | null; parts: Record<string, number> };
}

interface Limit {
  name: string;
  limit: number;
  use: (car: CarCandidate) => number;
}

const limitsOf = (cars: readonly CarCandidate[], limits: CarLimits, cashUnit: Minor | undefined): Limit[] => {
  const list: Limit[] = [];
  const add = (name: string, limit: number, use: Limit['use']) => {
    checkFinite(limit, `limit of ${name}`);
    if (limit < 0) throw new RangeError(`limit of ${name} must not be below zero, and is ${limit}`);
    list.push({ name, limit, use });
  };
  if (limits.hours !== undefined) add('hours', limits.hours, car => car.hours);
  if (limits.cash !== undefined) {
    if (cashUnit === undefined)
      throw new RangeError('a limit of cash needs the step in which cash is priced');
    add('cash', limits.cash / cashUnit, car => car.cash / cashUnit);
  }
  for (const part of Object.keys(limits.parts).sort())
    add(`part ${part}`, limits.parts[part]!, car => (Object.hasOwn(car.parts, part) ? car.parts[part]! : 0));
  if (limits.perCasting !== undefined) {
    const counts = new Map<number, number>();
    for (const { castingId } of cars)
      if (castingId !== null) counts.set(castingId, (counts.get(castingId) ?? 0) + 1);
    for (const [castingId, count] of [...counts].sort(([a], [b]) => a - b))
      if (count > limits.perCasting)
        add(`casting ${castingId}`, limits.perCasting, car => (car.castingId === castingId ? 1 : 0));
  }
  return list;
};

const checkCandidates = (candidates: readonly CarCandidate[]): void => {
  const ids = new Set<number>();
  for (const car of candidates) {
    if (ids.has(car.id)) throw new RangeError(`car ${car.id} is among the candidates twice`);
    ids.add(car.id);
    checkFinite(car.gain, `gain of car ${car.id}`);
    for (const [name, use] of Object.entries({ hours: car.hours, cash: car.cash, ...car.parts })) {
      checkFinite(use, `${name} of car ${car.id}`);
      if (use < 0) throw new RangeError(`${name} of car ${car.id} must not be below zero, and is ${use}`);
    }
    if (car.must && car.mustNot) throw new RangeError(`car ${car.id} cannot be both chosen and left out`);
  }
};

/**
 * Which cars to work on: of the candidates those with the largest sum of expected gains that bench hours,
 * cash and scarce parts allow, with at most so many of one casting; `must` cars are in whatever they gain,
 * `mustNot` cars are out. Solved by `chooseUnderLimits`, whose options hold here; `cashUnit` is the step
 * for which one more of cash is priced, in minor units (`cashStep` of the currency); it is needed where
 * cash is a limit.
 *
 * Rejects with RangeError on bad figures, and, naming the limit, where the `must` cars alone go beyond one.
 */
export const chooseCars = async (
  { candidates, limits }: { candidates: readonly CarCandidate[]; limits: CarLimits },
  { cashUnit, ...options }: ChoiceOptions & { cashUnit?: Minor } = {},
): Promise<ChosenCars> => {
  checkCandidates(candidates);
  const cars = candidates.filter(({ mustNot }) => !mustNot).sort((a, b) => a.id - b.id);
  const all = limitsOf(cars, limits, cashUnit);
  const must = cars.filter(car => car.must);
  const free = cars.filter(car => !car.must && car.gain > 0);
  const used = (list: readonly CarCandidate[], { use }: Limit) =>
    list.reduce((sum, car) => sum + use(car), 0);
  const left = all.map(limit => {
    const rest = limit.limit - used(must, limit);
    if (rest < -1e-9 * Math.max(1, limit.limit))
      throw new RangeError(`the cars that must be chosen alone go beyond the limit of ${limit.name}`);
    return Math.max(0, rest);
  });
  let picked: CarCandidate[] = free;
  let more = all.map(() => 0);
  if (free.length > 0 && all.length > 0) {
    const solved = await chooseUnderLimits(
      {
        gains: free.map(car => car.gain),
        uses: all.map(({ use }) => free.map(use)),
        limits: left,
      },
      options,
    );
    picked = free.filter((_, j) => solved.chosen[j]);
    more = solved.worthOfOneMore;
  }
  const chosen = [...must, ...picked];
  const burden = (car: CarCandidate) =>
    all.reduce((sum, { limit, use }) => sum + (limit > 0 ? use(car) / limit : 0), 0);
  const rank = new Map(chosen.map(car => [car, car.gain / Math.max(burden(car), 1e-9)]));
  chosen.sort((a, b) => rank.get(b)! - rank.get(a)! || b.gain - a.gain || a.id - b.id);
  const oneMore = (name: string) => {
    const i = all.findIndex(limit => limit.name === name);
    return i < 0 ? null : more[i]!;
  };
  const parts = Object.keys(limits.parts).sort();
  const partUse = (part: string) =>
    chosen.reduce((sum, car) => sum + (Object.hasOwn(car.parts, part) ? car.parts[part]! : 0), 0);
  return {
    chosen: chosen.map(({ id }) => id),
    gain: chosen.reduce((sum, { gain }) => sum + gain, 0),
    used: {
      hours: chosen.reduce((sum, { hours }) => sum + hours, 0),
      cash: chosen.reduce((sum, { cash }) => sum + cash, 0),
      parts: Object.fromEntries(parts.map(part => [part, partUse(part)])),
    },
    worthOfOneMore: {
      hours: oneMore('hours'),
      cash: oneMore('cash'),
      parts: Object.fromEntries(parts.map(part => [part, oneMore(`part ${part}`)!])),
    },
  };
};

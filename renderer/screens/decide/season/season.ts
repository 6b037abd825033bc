import type { DecisionSummary, Portfolio } from '../../../../electron/api/views.ts';
import type { Minor } from '../../../../valuation/types.ts';

/** How a car stands to the season: chosen, chosen come what may, or kept out. */
export type Standing = 'in' | 'must' | 'never';

/** What the owner means to do this season, and within what. */
export interface Season {
  standings: ReadonlyMap<number, Standing>;
  hours: number | null;
  cash: Minor | null;
  /** Limits of parts that differ from what is on the shelf; null for none. */
  parts: Readonly<Record<string, number | null>>;
  perCasting: number | null;
  /** The cars that are on the bench or finished: they stay in, with what was expected when they went there. */
  begun: ReadonlyMap<number, Begun>;
}

/** What was expected of a car when it went to the bench. */
export interface Begun {
  hours: number;
  cash: Minor;
  gain: Minor;
}

export const emptySeason: Season = {
  standings: new Map(),
  hours: null,
  cash: null,
  parts: {},
  perCasting: null,
  begun: new Map(),
};

export const isIn = (standing: Standing | undefined): boolean => standing === 'in' || standing === 'must';

/** Gives cars a standing, or takes it from them. */
export const withStanding = (season: Season, ids: readonly number[], standing: Standing | null): Season => {
  const standings = new Map(season.standings);
  for (const id of ids) {
    if (standing === null) standings.delete(id);
    else standings.set(id, standing);
  }
  return { ...season, standings };
};

/** Space on cars: all go in, unless all are in already; then all go out. */
export const toggled = (season: Season, ids: readonly number[]): Season => {
  const allIn = ids.every(id => isIn(season.standings.get(id)));
  const changing = ids.filter(id => isIn(season.standings.get(id)) === allIn);
  return withStanding(season, changing, allIn ? null : 'in');
};

/** The same key again takes a standing back; a car that must be in stays in. */
export const switched = (season: Season, ids: readonly number[], standing: 'must' | 'never'): Season => {
  const all = ids.every(id => season.standings.get(id) === standing);
  return withStanding(season, ids, all ? (standing === 'must' ? 'in' : null) : standing);
};

/** Takes the set that was chosen: what must be in or out keeps its standing, and what was begun stays. */
export const withChosen = (season: Season, { chosen }: Portfolio): Season => {
  const standings = new Map<number, Standing>(
    [...season.standings].filter(([id, standing]) => isIn(standing) && season.begun.has(id)),
  );
  for (const id of chosen) standings.set(id, season.standings.get(id) === 'must' ? 'must' : 'in');
  for (const [id, standing] of season.standings) if (standing === 'never') standings.set(id, standing);
  return { ...season, standings };
};

export interface Totals {
  /** The cars of the season, in the order of the list. */
  cars: DecisionSummary[];
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
  gain: Minor;
  /** The castings of which more are in than `perCasting` allows. */
  crowded: string[];
}

/**
 * What the season's cars take and are expected to gain over leaving them. Cars that are gone count no more.
 */
export const totalsOf = (season: Season, cars: readonly DecisionSummary[]): Totals => {
  const taken = cars.filter(
    ({ car, plan }) => (plan || season.begun.has(car.id)) && isIn(season.standings.get(car.id)),
  );
  const parts: Record<string, number> = {};
  const castings = new Map<string, number>();
  let hours = 0;
  let cash = 0;
  let gain = 0;
  for (const { car, plan, hours: h, cash: c, parts: p } of taken) {
    const begun = season.begun.get(car.id);
    hours += begun?.hours ?? h;
    cash += begun?.cash ?? c;
    gain += begun?.gain ?? plan?.expectedGain ?? 0;
    // What a car on the bench uses has left the shelf.
    if (!begun) for (const [part, count] of Object.entries(p)) parts[part] = (parts[part] ?? 0) + count;
    if (car.casting) castings.set(car.casting, (castings.get(car.casting) ?? 0) + 1);
  }
  const { perCasting } = season;
  const crowded =
    perCasting === null ? [] : [...castings].filter(([, count]) => count > perCasting).map(([name]) => name);
  return { cars: taken, hours, cash, parts, gain, crowded };
};

/** The cars of a season that can go to the bench: chosen, and not begun, in its order. */
export const waitingForBench = (
  season: Season,
  cars: ReadonlyMap<number, DecisionSummary>,
): DecisionSummary[] =>
  [...season.standings].flatMap(([id, standing]) => {
    const weighed = cars.get(id);
    return isIn(standing) && weighed?.plan && !season.begun.has(id) ? [weighed] : [];
  });

/** What is left of a limit for cars that are not begun. */
export const leftOf = (season: Season, limit: 'hours' | 'cash'): number | null => {
  const most = season[limit];
  if (most === null) return null;
  let taken = 0;
  for (const [id, begun] of season.begun) if (isIn(season.standings.get(id))) taken += begun[limit];
  return Math.max(most - taken, 0);
};

interface Meter {
  used: number;
  limit: number | null;
}

/** The limits of parts: the owner's, else what is on the shelf, of every part that a plan asks for. */
export const partLimits = (
  season: Season,
  cars: readonly DecisionSummary[],
  shelf: readonly { name: string; inStock: number }[],
): Map<string, number | null> => {
  const stock = new Map(shelf.map(({ name, inStock }) => [name, inStock]));
  const asked = new Set(cars.flatMap(({ parts }) => Object.keys(parts)));
  return new Map(
    [...asked].sort().map(name => {
      const own = season.parts[name];
      return [name, own === undefined ? (stock.get(name) ?? 0) : own];
    }),
  );
};

/** Parts by how near they are to their limit, the tightest first. */
export const tightest = (parts: Record<string, number>, limits: ReadonlyMap<string, number | null>) =>
  [...limits]
    .map(([name, limit]) => ({ name, limit, used: parts[name] ?? 0 }))
    .filter(({ used }) => used > 0)
    .sort((a, b) => tightness(b) - tightness(a) || a.name.localeCompare(b.name));

const tightness = ({ used, limit }: Meter): number =>
  limit === null ? -1 : limit === 0 ? Number.POSITIVE_INFINITY : used / limit;

/** The most cars that are weighed against one another at once. */
export const mostCandidates = 2000;

/**
 * The cars among which the best set is looked for: those that gain and may be painted, and those
 * that must be in.
 */
export const candidatesOf = (season: Season, cars: readonly DecisionSummary[]): number[] =>
  cars
    .filter(
      ({ car, plan }) =>
        plan &&
        !plan.guarded &&
        plan.expectedGain > 0 &&
        !season.begun.has(car.id) &&
        season.standings.get(car.id) !== 'never',
    )
    .sort((a, b) => (b.plan?.expectedGain ?? 0) - (a.plan?.expectedGain ?? 0))
    .slice(0, mostCandidates)
    .map(({ car }) => car.id);

export interface LeftOut {
  weighed: DecisionSummary;
  why: 'guarded' | 'never' | 'no room';
}

/** The cars that would gain by their plan and yet are not in, those that would gain most first. */
export const leftOut = (season: Season, cars: readonly DecisionSummary[]): LeftOut[] =>
  cars
    .filter(({ car, plan }) => plan && plan.expectedGain > 0 && !isIn(season.standings.get(car.id)))
    .map(
      (weighed): LeftOut => ({
        weighed,
        why:
          season.standings.get(weighed.car.id) === 'never'
            ? 'never'
            : weighed.plan?.guarded
              ? 'guarded'
              : 'no room',
      }),
    )
    .sort((a, b) => (b.weighed.plan?.expectedGain ?? 0) - (a.weighed.plan?.expectedGain ?? 0));

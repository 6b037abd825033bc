import type { DecisionSummary, SeasonChoice, SeasonOffer } from '../../../../electron/api/views.ts';
import { mostInSeason, usualOffer } from '../../../../valuation/choice/season-offer.ts';
import type { Minor } from '../../../../valuation/types.ts';
import type { CarStanding, WorkKind } from '../../../../valuation/words.ts';

/** How a car stands to the season: chosen, chosen come what may, or kept out. */
export type Standing = NonNullable<CarStanding>;

/** What the owner means to do this season, and within what. */
export interface Season {
  standings: ReadonlyMap<number, Standing>;
  /** What is to be done with its cars, where it is not what is usual for them. */
  options: ReadonlyMap<number, WorkKind>;
  /** The colours that were proposed for its cars. */
  colours: ReadonlyMap<number, string>;
  hours: number | null;
  cash: Minor | null;
  /** Limits of parts that differ from what is on the shelf; null for none. */
  parts: Readonly<Record<string, number | null>>;
  perCasting: number | null;
  /** For how many cars there is room in all. */
  mostCars: number | null;
  /**
   * The cars that are on the bench or finished: they stay in, with what was expected when they went there.
   */
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
  options: new Map(),
  colours: new Map(),
  hours: null,
  cash: null,
  parts: {},
  perCasting: null,
  mostCars: null,
  begun: new Map(),
};

export const isIn = (standing: Standing | undefined): boolean => standing === 'in' || standing === 'must';

/** What is done with a car that is taken in, until its owner says otherwise. */
const usual = ({ car: { recommendation }, plan, offers }: DecisionSummary): SeasonOffer | null =>
  usualOffer(offers, { recommendation, own: plan?.own && plan.option !== 'leave' ? plan.option : null });

/** What is done with a car of the season; null where not enough is known of it. */
export const offerOf = (season: Season, weighed: DecisionSummary): SeasonOffer | null => {
  const wished = season.options.get(weighed.car.id);
  return weighed.offers.find(({ option }) => option === wished) ?? usual(weighed);
};

/** Sets what is to be done with a car that must then be in. */
export const withOption = (season: Season, id: number, option: WorkKind): Season => ({
  ...withStanding(season, [id], 'must'),
  options: new Map(season.options).set(id, option),
});

/** Gives cars a standing, or takes it from them. */
export const withStanding = (season: Season, ids: readonly number[], standing: Standing | null): Season => {
  const standings = new Map(season.standings);
  const options = new Map(season.options);
  const colours = new Map(season.colours);
  for (const id of ids) {
    if (standing === null) standings.delete(id);
    else standings.set(id, standing);
    if (isIn(standing ?? undefined)) continue;
    options.delete(id);
    colours.delete(id);
  }
  return { ...season, standings, options, colours };
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

/**
 * Takes the set that was chosen, and what is done with each: what must be in or out keeps its standing, and
 * what was begun stays.
 */
export const withChosen = (season: Season, { taken }: Pick<SeasonChoice, 'taken'>): Season => {
  const standings = new Map<number, Standing>(
    [...season.standings].filter(([id, standing]) => isIn(standing) && season.begun.has(id)),
  );
  for (const { id } of taken) standings.set(id, season.standings.get(id) === 'must' ? 'must' : 'in');
  for (const [id, standing] of season.standings) if (standing === 'never') standings.set(id, standing);
  const options = new Map([...season.options].filter(([id]) => season.begun.has(id)));
  for (const { id, option } of taken) options.set(id, option);
  const colours = new Map([...season.colours].filter(([id]) => isIn(standings.get(id))));
  return { ...season, standings, options, colours };
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
  const taken: DecisionSummary[] = [];
  const parts: Record<string, number> = {};
  const castings = new Map<string, number>();
  let hours = 0;
  let cash = 0;
  let gain = 0;
  for (const weighed of cars) {
    const { car } = weighed;
    const begun = season.begun.get(car.id);
    const offer = isIn(season.standings.get(car.id)) ? offerOf(season, weighed) : null;
    if (!offer && !(begun && isIn(season.standings.get(car.id)))) continue;
    taken.push(weighed);
    hours += begun?.hours ?? offer?.hours ?? 0;
    cash += begun?.cash ?? offer?.cash ?? 0;
    gain += begun?.gain ?? offer?.gain ?? 0;
    // What a car on the bench uses has left the shelf.
    if (!begun && offer)
      for (const [part, count] of Object.entries(offer.parts)) parts[part] = (parts[part] ?? 0) + count;
    if (car.casting) castings.set(car.casting, (castings.get(car.casting) ?? 0) + 1);
  }
  const { perCasting } = season;
  const crowded =
    perCasting === null ? [] : [...castings].filter(([, count]) => count > perCasting).map(([name]) => name);
  return { cars: taken, hours, cash, parts, gain, crowded };
};

/** A car of the season with what is done with it. */
export interface Planned {
  weighed: DecisionSummary;
  offer: SeasonOffer;
}

/** The cars of a season that can go to the bench: chosen, and not begun, in its order. */
export const waitingForBench = (season: Season, cars: ReadonlyMap<number, DecisionSummary>): Planned[] =>
  [...season.standings].flatMap(([id, standing]) => {
    const weighed = cars.get(id);
    const offer = weighed && isIn(standing) && !season.begun.has(id) ? offerOf(season, weighed) : null;
    return weighed && offer ? [{ weighed, offer }] : [];
  });

/** What is left of a limit for cars that are not begun. */
export const leftOf = (season: Season, limit: 'hours' | 'cash'): number | null => {
  const most = season[limit];
  if (most === null) return null;
  let taken = 0;
  for (const [id, begun] of season.begun) if (isIn(season.standings.get(id))) taken += begun[limit];
  return Math.max(most - taken, 0);
};

/** For how many cars that are not begun there is room. */
export const placesLeft = ({ mostCars, begun, standings }: Season): number =>
  Math.max(
    Math.min(mostCars ?? mostInSeason, mostInSeason) -
      [...begun.keys()].filter(id => isIn(standings.get(id))).length,
    0,
  );

interface Meter {
  used: number;
  limit: number | null;
}

/** Parts by how near they are to their limit, the tightest first. */
export const tightest = (parts: Record<string, number>, limits: ReadonlyMap<string, number | null>) =>
  [...limits]
    .map(([name, limit]) => ({ name, limit, used: parts[name] ?? 0 }))
    .filter(({ used }) => used > 0)
    .sort((a, b) => tightness(b) - tightness(a) || a.name.localeCompare(b.name));

const tightness = ({ used, limit }: Meter): number =>
  limit === null ? -1 : limit === 0 ? Number.POSITIVE_INFINITY : used / limit;

/** The most decisions that are recorded at once. */
export const mostRecorded = 2000;

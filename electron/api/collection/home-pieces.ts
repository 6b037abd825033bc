import type { BriefCar } from '../../../db/records/cars/brief-cars.ts';
import {
  type FittedMarket,
  meanWorth,
  type PartOfSum,
  partOfSum,
  type Recommendation,
  type Worth,
} from '../../../valuation/index.ts';
import type { FinishState, Grade } from '../../../valuation/words.ts';
import type { CarBlock } from '../figures/car-blocks.ts';
import type { Figures } from '../figures/figures.ts';
import { isOwned } from '../figures/owned.ts';
import type { ReferenceIndex } from '../reference/reference-index.ts';
import type { OwnRest } from '../views.ts';

/** Cars, and what those of them that have a value are expected to bring together; null where none has one. */
export interface Gathered {
  cars: number;
  sum: number | null;
}

/** What cars of the whole collection count for on Home; what lacks something is counted by what it lacks. */
export interface HomeCounts extends Record<OwnRest, number> {
  cars: number;
  valued: number;
  /** Sold ones counted. */
  decided: number;
  /** Work is recommended and nothing decided, of all and of those that are to be kept. */
  pays: number;
  keptPays: number;
  unidentified: number;
  openVariation: number;
  ungraded: number;
  noWorth: number;
  noPhotograph: number;
}

/** What a block of cars adds to Home. */
export interface HomePiece {
  counts: HomeCounts;
  part: PartOfSum;
  valueless: number[];
  inLots: Map<number | null, number>;
  bySeries: Map<string | null, Gathered>;
  byGrade: Map<Grade | FinishState | null, Gathered>;
  /** By colours as they are spelled. */
  byColour: Map<string, Gathered>;
  byRecommendation: Map<Recommendation, { cars: number; gain: number }>;
  /** Those of the greatest mids, the greatest first; of equals the one entered first. */
  best: { id: number; mid: number }[];
}

export const mostBest = 6;

/** The best of those that are already in this order, part after part. */
export const bestOf = (all: HomePiece['best']): HomePiece['best'] =>
  all.toSorted((a, b) => b.mid - a.mid || a.id - b.id).slice(0, mostBest);

/**
 * Cars with their factory finish by grade, the others by what has become of it: their grades are not of one
 * scale.
 */
const gradeGroup = ({ grade, finishState }: BriefCar): Grade | FinishState | null =>
  finishState !== 'original' ? finishState : grade === null ? null : Math.floor(grade);

const noCounts = (): HomeCounts => ({
  ...{ cars: 0, valued: 0, paid: 0, believed: 0, decided: 0, pays: 0, keptPays: 0 },
  ...{ unidentified: 0, openVariation: 0, ungraded: 0, noWorth: 0, noPhotograph: 0 },
});

const works: ReadonlySet<Recommendation> = new Set(['restore', 'conserve', 'customise']);

const count = (
  counts: HomeCounts,
  car: BriefCar,
  {
    worth,
    own,
    recommendation = 'leave',
  }: { worth?: Worth | null; own?: OwnRest; recommendation?: Recommendation },
): void => {
  const pays = !car.isDecided && works.has(recommendation);
  counts.cars += 1;
  counts.valued += Number(Boolean(worth));
  if (own) counts[own] += 1;
  counts.pays += Number(pays);
  counts.keptPays += Number(pays && car.isKept);
  counts.unidentified += Number(car.castingId === null);
  counts.openVariation += Number(car.castingId !== null && car.variationId === null);
  counts.ungraded += Number(car.grade === null);
  counts.noWorth += Number(car.castingId !== null && !worth);
  counts.noPhotograph += Number(car.photos === 0);
};

const gather = <Key>(groups: Map<Key, Gathered>, key: Key, { cars, sum }: Gathered): void => {
  const group = groups.get(key) ?? { cars: 0, sum: null };
  group.cars += cars;
  if (sum !== null) group.sum = (group.sum ?? 0) + sum;
  groups.set(key, group);
};

/** What the cars of a block add to Home: the owner's, and others only by what was decided for them. */
export const homePiece = (
  block: CarBlock,
  {
    fitted,
    index,
    seen,
    figures,
  }: {
    fitted: FittedMarket;
    index: ReferenceIndex;
    /** The lots that were only seen. */
    seen: ReadonlySet<number>;
    figures: Figures;
  },
): HomePiece => {
  const counts = noCounts();
  const worthOf = figures.column(({ worths }) => worths.asFound);
  const restsOn = figures.column(({ worths }) => worths.restsOn);
  const recommendationOf = figures.column(one => one.recommendation);
  const expectedGain = figures.column(one => one.expectedGain);
  const inSum: { car: BriefCar; worth: Worth }[] = [];
  const piece: Omit<HomePiece, 'part' | 'best'> = {
    counts,
    valueless: [],
    inLots: new Map(),
    bySeries: new Map(),
    byGrade: new Map(),
    byColour: new Map(),
    byRecommendation: new Map(),
  };
  for (const car of block) {
    counts.decided += Number(car.isDecided);
    if (!isOwned(seen, car)) continue;
    const [worth, recommendation] = [worthOf(car.id), recommendationOf(car.id)];
    count(counts, car, { worth, own: restsOn(car.id), recommendation });
    if (worth) inSum.push({ car, worth });
    else piece.valueless.push(car.id);
    piece.inLots.set(car.lotId, (piece.inLots.get(car.lotId) ?? 0) + 1);
    const variation = car.variationId === null ? undefined : index.variations.get(car.variationId);
    const series = (car.castingId === null ? undefined : index.castings.get(car.castingId)?.series) ?? null;
    const one = { cars: 1, sum: worth ? meanWorth(worth) : null };
    gather(piece.bySeries, series, one);
    gather(piece.byGrade, gradeGroup(car), one);
    gather(piece.byColour, car.colour || variation?.features.colour || '', one);
    if (!recommendation) continue;
    const of = piece.byRecommendation.get(recommendation) ?? { cars: 0, gain: 0 };
    piece.byRecommendation.set(recommendation, {
      cars: of.cars + 1,
      gain: of.gain + (expectedGain(car.id) ?? 0),
    });
  }
  const mids = inSum.flatMap(({ car: { id }, worth: { mid } }) => (mid > 0 ? [{ id, mid }] : []));
  return { ...piece, part: partOfSum(fitted, inSum), best: bestOf(mids) };
};

/** What all blocks have of some groups, in the order in which they are met first. */
export const gathered = <Key, As>(
  pieces: readonly HomePiece[],
  groupsOf: (piece: HomePiece) => Map<Key, Gathered>,
  keyOf: (key: Key) => As,
): Map<As, Gathered> => {
  const all = new Map<As, Gathered>();
  for (const piece of pieces) for (const [key, group] of groupsOf(piece)) gather(all, keyOf(key), group);
  return all;
};

/** All blocks' counts together. */
export const allCounts = (pieces: readonly HomePiece[]): HomeCounts => {
  const all = noCounts();
  for (const { counts } of pieces)
    for (const key of Object.keys(all) as (keyof HomeCounts)[]) all[key] += counts[key];
  return all;
};

import type { AssumptionSet } from '../types.ts';
import { finishStates, grades, type Rarity, rarities } from '../words.ts';
import { type RarityKey, rarityChances } from './rarity-chances.ts';
import { sourceKind } from './source-kind.ts';

/**
 * The effects that all records share, one column each, as departures from the assumption set in log price:
 * the overall level; the yearly trend; a factor per rarity above common; a factor per finish state besides
 * original; and the grade curve: one slope for all states, nine steps C1–C2 … C9–C10 for all states, and
 * three stretches of its own for each state.
 */
const rarityColumns: Partial<Record<Rarity, number>> = { uncommon: 2, scarce: 3, rare: 4 };
const firstYear = 5;
/**
 * Ages in years between which the market level may move by itself: yearly while that can be told, then
 * coarser; the last stretch has no end.
 */
const yearEdges = [0, 1, 2, 3, 4, 5, 6, 8, 11, 16] as const;
/** What the last stretch counts for, though it has no end. */
const longest = 10;
const ungraded = firstYear + yearEdges.length;
/** Kinds of source whose prices may lie off those of auctions and of one's own sales. */
const biasedSources = ['listing', 'hearsay', 'dealer', 'fair', 'own purchase'] as const;
const firstSource = ungraded + 1;
const firstFinish = firstSource + biasedSources.length;
/**
 * How far the records may move an ungraded sale, and a kind of source, from none: standard deviations in
 * logs.
 */
const ungradedSd = 0.3;
const sourceSd = 0.12;
const slope = firstFinish + finishStates.length - 1;
const firstStep = slope + 1;
const firstStretch = firstStep + 9;
const stretches = [
  { from: 1, to: 4 },
  { from: 4, to: 7 },
  { from: 7, to: 10 },
] as const;

/** Where each effect stands among the columns of the regression, and how many columns there are. */
export const columns = {
  level: 0,
  trend: 1,
  /** Change of the market level in each stretch of years before the effective date, for a year of it. */
  firstYear,
  years: yearEdges.length,
  /** What a sale without a grade brings, against one of the unknown grade. */
  ungraded,
  /** The finish states and the grade curve come last. */
  firstOfCurve: firstFinish,
  count: firstStretch + finishStates.length * stretches.length,
};

/** The column of a kind of source; −1 for one whose prices are taken as they are. */
export const sourceColumn = (source: string): number => {
  const kind = sourceKind(source);
  const place = biasedSources.findIndex(one => one === kind);
  return place < 0 ? -1 : firstSource + place;
};

/** Years of each stretch: how far a random walk has time to go in it. */
export const yearLengths: readonly number[] = yearEdges.map((from, k) =>
  k + 1 < yearEdges.length ? yearEdges[k + 1]! - from : longest,
);

/** Years of a stretch that lie between a sale of that age and the effective date. */
export const yearsWithin = (age: number, stretch: number): number => {
  const from = yearEdges[stretch]!;
  const to = stretch + 1 < yearEdges.length ? yearEdges[stretch + 1]! : Number.POSITIVE_INFINITY;
  return Math.max(0, Math.min(age, to) - from);
};

/** Grade points between `from` and `to` that lie above a grade: they stand between the car and C10. */
const above = (grade: number, from: number, to: number) => Math.max(0, Math.min(to - from, to - grade));

/** Curve columns of each finish state and grade, by state × 19 + step. */
export const curveCells: Float64Array[] = finishStates.flatMap((_, state) =>
  grades.map(grade => {
    const cell = new Float64Array(columns.count);
    if (state > 0) cell[firstFinish + state - 1] = 1;
    cell[slope] = -(10 - grade);
    for (let k = 0; k < 9; k++) cell[firstStep + k] = -above(grade, k + 1, k + 2);
    stretches.forEach(({ from, to }, k) => {
      cell[firstStretch + state * stretches.length + k] = -above(grade, from, to);
    });
    return cell;
  }),
);

/**
 * Columns of a rarity, and the log of its assumed factor; of one that is not known, those of what it may be,
 * with the variance of the log that this leaves open.
 */
export interface RaritySpan {
  cell: Float64Array;
  log: number;
  open: number;
}

/** One span for several of which it may be any, each by its share. */
export const mixedSpan = (parts: readonly { span: RaritySpan; share: number }[]): RaritySpan => {
  const cell = new Float64Array(columns.count);
  const log = parts.reduce((sum, { span, share }) => sum + share * span.log, 0);
  let open = 0;
  for (const { span, share } of parts) {
    open += share * (span.open + (span.log - log) ** 2);
    for (let a = 0; a < cell.length; a++) cell[a]! += share * span.cell[a]!;
  }
  return { cell, log, open };
};

/**
 * The span of a rarity; of an unknown one that of all rarities, each as likely as it is common and as the
 * variation was seen. Throws RangeError unless the factors are above zero.
 */
export const raritySpan = (rarity: RarityKey, factors: AssumptionSet['rarityFactors']): RaritySpan => {
  if (typeof rarity !== 'string') {
    const chances = rarityChances(rarity);
    return mixedSpan(rarities.map((one, i) => ({ span: raritySpan(one, factors), share: chances[i]! })));
  }
  const cell = new Float64Array(columns.count);
  const column = rarityColumns[rarity];
  if (column !== undefined) cell[column] = 1;
  const factor = factors[rarity];
  if (!(factor > 0)) throw new RangeError(`rarity factor of "${rarity}" must be above zero`);
  return { cell, log: Math.log(factor), open: 0 };
};

/**
 * Prior precision of each column, 1/sd²: the level is free (sd 100 in logs); the others are held to the
 * assumption by its standard deviations. A deviation of 0 holds the column wholly; the trend is held at none
 * where it is not to be fitted.
 */
export const columnPrecisions = (
  prior: AssumptionSet['prior'],
  { trend, yearly }: { trend: boolean; yearly: number | null },
): Float64Array => {
  const held = 1e12;
  const of = (sd: number) => (sd > 0 ? 1 / (sd * sd) : held);
  const precision = new Float64Array(columns.count);
  precision.fill(of(prior.gradeStep * 0.6));
  precision[columns.level] = 1e-4;
  precision[columns.trend] = trend ? of(prior.trend) : held;
  for (let k = 0; k < columns.years; k++)
    precision[firstYear + k] = yearly === null || yearly <= 0 ? held : yearLengths[k]! / yearly;
  for (const column of Object.values(rarityColumns)) precision[column] = of(prior.rarity);
  precision[ungraded] = of(ungradedSd);
  precision.fill(of(sourceSd), firstSource, firstFinish);
  precision.fill(of(prior.finish), firstFinish, slope);
  precision[slope] = of(prior.gradeStep);
  precision.fill(of(prior.gradeStep * 0.8), firstStep, firstStretch);
  return precision;
};

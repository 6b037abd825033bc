import { type FittedMarket, ownVariance, variancesOf } from '../market/fitted-market.ts';
import { columns, curveCells, raritySpan } from '../market/market-columns.ts';
import { type RarityKey, supplyOf } from '../market/rarity-chances.ts';
import { forward } from '../market/shared-effects.ts';
import { isotonic } from '../statistics/isotonic.ts';
import { eightyPercent } from '../statistics/normal.ts';
import { finishStates, grades } from '../words.ts';
import { cachedOn, onceOn } from './cached-on.ts';
import { gradeView } from './grade-view.ts';
import { poolAt } from './pool-at.ts';

const width = columns.count + 1;
const size = columns.count;
const steps = grades.length;
const rungs = finishStates.length * steps;

/**
 * What a complete car of one variation brings, at each finish state (× 19) and grade step: mean and standard
 * deviation of the log of one sale in minor units, and the part of the deviation that is the estimate's own
 * and not the single sale's.
 */
export interface Ladder {
  mean: number[];
  sd: number[];
  shared: number[];
  /** Credibility of the variation's own sales at each grade step. */
  credibility: number[];
  /**
   * What the estimate takes of the effects that all records share, and how far its own level is open, by
   * grade step, and the variance that this gives each rung once somebody has asked for it; null where it is a
   * mixture.
   */
  rests: {
    mix: Float32Array;
    open: number[];
    rarity: RarityKey;
    variances: Map<number, number>;
  } | null;
  /** See `FitInside.ungraded`. */
  ungraded: { log: number; variance: number; steps: number };
}

/** Plain lists: there is a ladder for every variation, and small typed arrays are slow to make. */
const zeros = (count: number) => new Array<number>(count).fill(0);
const emptyLadder = ({ inside }: FittedMarket): Ladder => ({
  ungraded: inside.ungraded,
  mean: zeros(rungs),
  sd: zeros(rungs),
  shared: zeros(rungs),
  credibility: zeros(steps),
  rests: null,
});

const rises = (values: readonly number[]): boolean => {
  for (let i = 1; i < values.length; i++) if (values[i]! < values[i - 1]!) return false;
  return true;
};

/**
 * Makes low, mid and high of a ladder rise with grade: each end of the 80 % interval is made to rise by
 * isotonic regression, and mean and deviation are taken from the two. The upper end stays above the lower,
 * since isotonic regression keeps order.
 */
const makeRise = (ladder: Ladder): Ladder => {
  const low = zeros(steps);
  const high = zeros(steps);
  for (let state = 0; state < finishStates.length; state++) {
    for (let step = 0; step < steps; step++) {
      const at = state * steps + step;
      low[step] = ladder.mean[at]! - eightyPercent * ladder.sd[at]!;
      high[step] = ladder.mean[at]! + eightyPercent * ladder.sd[at]!;
    }
    if (rises(low) && rises(high)) continue;
    const risingLow = isotonic(low);
    const risingHigh = isotonic(high);
    for (let step = 0; step < steps; step++) {
      const at = state * steps + step;
      const sd = (risingHigh[step]! - risingLow[step]!) / 2 / eightyPercent;
      ladder.mean[at] = (risingHigh[step]! + risingLow[step]!) / 2;
      ladder.shared[at] = Math.min(sd, (ladder.shared[at]! * sd) / ladder.sd[at]!);
      ladder.sd[at] = sd;
    }
  }
  return ladder;
};

/** L⁻¹ × the columns of every finish state and grade for a complete car of a rarity at the effective date. */
export const subjectCells = onceOn((fitted): Map<RarityKey, Float64Array> => {
  const transformed = (rarity: RarityKey) => {
    const cells = new Float64Array(rungs * size);
    const span = raritySpan(rarity, fitted.assumptions.rarityFactors).cell;
    for (let at = 0; at < rungs; at++) {
      const cell = curveCells[at]!.map((x, a) => x + span[a]!);
      cell[columns.level] = 1;
      cells.set(forward(fitted.inside.root, size, cell), at * size);
    }
    return cells;
  };
  return new Map([...fitted.inside.rarityLog.keys()].map(rarity => [rarity, transformed(rarity)]));
});

/**
 * The ladder of a place in the tree: a variation with its own sales, or (−1) a variation of the casting of
 * which nothing is known.
 */
const build = (fitted: FittedMarket, variation: number, casting: number): Ladder => {
  const { curve, rarities, rarityLog, level } = fitted.inside;
  const { within } = variancesOf(fitted);
  const betweenVariations = ownVariance(fitted, variation);
  const { noise } = fitted.inside;
  const rarity = variation < 0 ? null : rarities[variation]!;
  const cells = subjectCells(fitted).get(rarity)!;
  const base = level + rarityLog.get(rarity)!;
  const ladder = emptyLadder(fitted);
  const mix = new Float64Array(width);
  const rests = { mix: new Float32Array(steps * size), open: zeros(steps), rarity, variances: new Map() };
  ladder.rests = rests;
  for (let step = 0; step < steps; step++) {
    const view = gradeView(fitted, step);
    const { z, zSure } = poolAt(fitted, { variation, casting, step }, mix);
    const pooled = betweenVariations * (1 - zSure) + (1 - zSure) ** 2 * view.variance[casting]!;
    ladder.credibility[step] = z;
    rests.open[step] = 1 - zSure;
    for (let a = 0; a < size; a++) rests.mix[step * size + a] = mix[a]!;
    for (let state = 0; state < finishStates.length; state++) {
      const at = state * steps + step;
      let effects = 0;
      for (let a = 0; a < size; a++) effects += (cells[at * size + a]! - mix[a]!) ** 2;
      ladder.mean[at] = base + curve[at]! + mix[size]!;
      ladder.shared[at] = Math.sqrt(pooled + effects);
      ladder.sd[at] = Math.sqrt(within * noise[step]! + pooled + effects);
    }
  }
  return makeRise(ladder);
};

/** Ladders held of each kind at most; some two kilobytes each. */
const mostLadders = 50_000;
const variationLadders = cachedOn<number, Ladder>(mostLadders);
const castingLadders = cachedOn<number, Ladder>(mostLadders);
const candidatesLadders = cachedOn<string, Ladder>(5000);

/** The ladder of a variation, by its place in the market's index. */
export const variationLadder = (fitted: FittedMarket, variation: number): Ladder =>
  variationLadders(fitted, variation, () =>
    build(fitted, variation, fitted.inside.index.variationCasting[variation]!),
  );

/**
 * The ladder of a car that is one of several variations, with the chance of each: mean and variance of
 * the mixture's logs.
 */
const mixture = (fitted: FittedMarket, parts: { ladder: Ladder; chance: number }[]): Ladder => {
  if (parts.length === 1) return parts[0]!.ladder;
  const { within } = variancesOf(fitted);
  const mixed = emptyLadder(fitted);
  for (let at = 0; at < rungs; at++) {
    let mean = 0;
    for (const { ladder, chance } of parts) mean += chance * ladder.mean[at]!;
    let spread = 0;
    for (const { ladder, chance } of parts)
      spread += chance * (ladder.sd[at]! ** 2 + (ladder.mean[at]! - mean) ** 2);
    const sale = within * fitted.inside.noise[at % steps]!;
    const variance = Math.max(spread, sale);
    mixed.mean[at] = mean;
    mixed.sd[at] = Math.sqrt(variance);
    mixed.shared[at] = Math.sqrt(Math.max(0, variance - sale));
  }
  for (let step = 0; step < steps; step++)
    mixed.credibility[step] = parts.reduce((sum, p) => sum + p.chance * p.ladder.credibility[step]!, 0);
  return makeRise(mixed);
};

/** The ladder of a car that may be any of these variations, each as likely as the others. */
export const candidatesLadder = (fitted: FittedMarket, variations: readonly number[]): Ladder => {
  const sorted = [...new Set(variations)].sort((a, b) => a - b);
  return candidatesLadders(fitted, sorted.join(), () =>
    mixture(
      fitted,
      sorted.map(v => ({ ladder: variationLadder(fitted, v), chance: 1 / sorted.length })),
    ),
  );
};

/**
 * The ladder of a car of which only the casting is known: each of its variations as likely as its
 * rarity makes it.
 */
export const castingLadder = (fitted: FittedMarket, casting: number): Ladder =>
  castingLadders(fitted, casting, () => {
    const { castingVariations, variationRarity } = fitted.inside.index;
    const places = castingVariations[casting]!;
    if (places.length === 0) return build(fitted, -1, casting);
    const total = places.reduce((sum, v) => sum + supplyOf(variationRarity[v]!), 0);
    return mixture(
      fitted,
      places.map(v => ({
        ladder: variationLadder(fitted, v),
        chance: supplyOf(variationRarity[v]!) / total,
      })),
    );
  });

/**
 * What both published credibility estimators begin with; the market's own pooling (market/pool-evidence.ts)
 * does not use it.
 */

import { checkNumbers, checkWeights } from './check-input.ts';

/** Observations of one group, such as the adjusted log prices of one variation, with the weight of each. */
export interface CredibilityGroup {
  values: readonly number[];
  weights: readonly number[];
}

export interface GroupSummary {
  /** Sum of the group's weights. */
  weight: number;
  /**
   * Weighted mean less the group's centre; 0 for a group of no weight, which then has no part in anything.
   */
  mean: number;
}

/**
 * Groups in units of `scale`, a power of two near the largest value, so that no square overflows or vanishes.
 */
export interface GroupSummaries {
  scale: number;
  summaries: GroupSummary[];
  /** What each group's mean is counted from: one of the values of its family. */
  centres: number[];
  /** Pooled variance within groups of an observation of unit weight, in units of `scale`². */
  within: number;
}

/** Weighted mean of `values`; their weights must not sum to zero. */
export const weightedMean = (values: readonly number[], weights: readonly number[]): number => {
  let sum = 0;
  let weight = 0;
  for (let i = 0; i < values.length; i++) {
    sum += weights[i]! * values[i]!;
    weight += weights[i]!;
  }
  return sum / weight;
};

const checkGroups = (groups: readonly CredibilityGroup[]): void => {
  if (!(groups?.length > 0)) throw new RangeError('groups must not be empty');
  groups.forEach(({ values, weights }, g) => {
    checkNumbers(values, `groups[${g}].values`);
    if (weights?.some(weight => weight !== 0)) checkWeights(weights, values.length, `groups[${g}].weights`);
    else checkNumbers(weights, `groups[${g}].weights`);
    if (weights.length !== values.length)
      throw new RangeError(
        `groups[${g}].weights has ${weights.length} entries where ${values.length} are needed`,
      );
  });
  if (groups.every(({ weights }) => weights.every(weight => weight === 0)))
    throw new RangeError('weights of groups must not all be zero');
};

/** The power of two at or below `size`: dividing by it loses nothing. 1 for zero. */
const powerOfTwo = (size: number): number =>
  size === 0 ? 1 : 2 ** Math.max(-1022, Math.min(1023, Math.floor(Math.log2(size))));

/** The weightiest value of a group, in units of `scale`. */
const anchorOf = ({ values, weights }: CredibilityGroup, scale: number): number => {
  let at = 0;
  for (let i = 1; i < values.length; i++) if (weights[i]! > weights[at]!) at = i;
  return values[at]! / scale;
};

/** For each group, the anchor of the weightiest group of its family. */
const centresOf = (
  anchors: readonly number[],
  weights: readonly number[],
  families: readonly number[],
): number[] => {
  const first = new Map<number, number>();
  families.forEach((family, g) => {
    const before = first.get(family);
    if (before === undefined || weights[g]! > weights[before]!) first.set(family, g);
  });
  return families.map(family => anchors[first.get(family)!]!);
};

/**
 * Each group's weight and weighted mean, and the pooled variance within groups of an observation of unit
 * weight, Σ w (x − x̄)² / Σ (n − 1). Observations of weight zero count for nothing. Every difference is taken
 * from a value nearby: the observations' from one of their own group, the groups' from one of their family
 * (`families` names it for each group; all are one family without it). The difference of two neighbouring
 * numbers is exact, so a height that the values have in common costs the variances no digits. Throws
 * RangeError on empty, mismatched or non-finite input, and when no group holds two observations.
 */
export const summariseGroups = (
  groups: readonly CredibilityGroup[],
  families: readonly number[] = groups?.map(() => 0),
): GroupSummaries => {
  checkGroups(groups);
  const counted = groups.flatMap(({ values, weights }) => values.filter((_, i) => weights[i]! > 0));
  const scale = powerOfTwo(counted.reduce((most, x) => Math.max(most, Math.abs(x)), 0));
  const anchors = groups.map(group => anchorOf(group, scale));
  const totals = groups.map(({ weights }) => weights.reduce((a, b) => a + b, 0));
  const centres = centresOf(anchors, totals, families);
  let squares = 0;
  let freedom = 0;
  const summaries = groups.map(({ values, weights }, g) => {
    const weight = totals[g]!;
    if (weight === 0) return { weight, mean: 0 };
    const apart = values.map((x, i) => (weights[i]! > 0 ? x / scale - anchors[g]! : 0));
    const mean = weightedMean(apart, weights);
    apart.forEach((d, i) => {
      squares += weights[i]! * (d - mean) ** 2;
    });
    freedom += weights.filter(w => w > 0).length - 1;
    return { weight, mean: anchors[g]! - centres[g]! + mean };
  });
  if (freedom === 0)
    throw new RangeError(
      'groups must hold at least one with two observations: else nothing tells the variance within',
    );
  return { scale, summaries, centres, within: squares / freedom };
};

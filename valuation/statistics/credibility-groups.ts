import { checkNumbers, checkWeights } from './check-input.ts';

/** Observations of one group, such as the adjusted log prices of one variation, with the weight of each. */
export interface CredibilityGroup {
  values: readonly number[];
  weights: readonly number[];
}

export interface GroupSummary {
  /** Sum of the group's weights. */
  weight: number;
  /** Weighted mean; 0 for a group of no weight, which then has no part in anything. */
  mean: number;
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

/**
 * Each group's weight and weighted mean, and the pooled variance within groups of an observation of unit
 * weight, Σ w (x − x̄)² / Σ (n − 1). Observations of weight zero count for nothing.
 * Throws RangeError on empty, mismatched or non-finite input, and when no group holds two observations.
 */
export const summariseGroups = (
  groups: readonly CredibilityGroup[],
): { summaries: GroupSummary[]; within: number } => {
  if (!(groups?.length > 0)) throw new RangeError('groups must not be empty');
  let squares = 0;
  let freedom = 0;
  const summaries = groups.map(({ values, weights }, g) => {
    checkNumbers(values, `groups[${g}].values`);
    if (weights?.some(weight => weight !== 0)) checkWeights(weights, values.length, `groups[${g}].weights`);
    else checkNumbers(weights, `groups[${g}].weights`);
    if (weights.length !== values.length)
      throw new RangeError(
        `groups[${g}].weights has ${weights.length} entries where ${values.length} are needed`,
      );
    const weight = weights.reduce((a, b) => a + b, 0);
    if (weight === 0) return { weight, mean: 0 };
    const mean = weightedMean(values, weights);
    for (let i = 0; i < values.length; i++) squares += weights[i]! * (values[i]! - mean) ** 2;
    freedom += weights.filter(w => w > 0).length - 1;
    return { weight, mean };
  });
  if (summaries.every(({ weight }) => weight === 0))
    throw new RangeError('weights of groups must not all be zero');
  if (freedom === 0)
    throw new RangeError(
      'groups must hold at least one with two observations: else nothing tells the variance within',
    );
  return { summaries, within: squares / freedom };
};

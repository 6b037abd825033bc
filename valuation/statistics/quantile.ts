import { checkBetween, checkNumbers, checkWeights } from './check-input.ts';

/**
 * Quantile of type 7: linear between order statistics at (n − 1) p. `p` in 0…1, the result in the unit of the
 * values.
 * Throws RangeError on empty or non-finite values and on p outside 0…1.
 * Source: Hyndman & Fan (1996), The American Statistician 50, definition 7.
 */
export const quantile = (values: readonly number[], p: number): number => {
  checkNumbers(values, 'values');
  checkBetween(p, 0, 1, 'p');
  return quantileOfSorted(Float64Array.from(values).sort(), p);
};

/** The same of values that are in order already, the least first; nothing is checked. */
export const quantileOfSorted = (sorted: Float64Array, p: number): number => {
  const place = (sorted.length - 1) * p;
  const below = sorted[Math.floor(place)]!;
  const above = sorted[Math.ceil(place)]!;
  return below === above ? below : below + (above - below) * (place - Math.floor(place));
};

/**
 * Sums of decimal weights miss a round share of their total by a few last places; this counts as reaching it.
 */
const reached = 1 - 1e-12;

/**
 * The smallest value at which the weights up to it reach the share `p` of all: the inverse of the
 * weighted distribution function. At p = 0.5 it is the lower weighted median. Values of weight zero do
 * not count. Throws RangeError on empty, mismatched or non-finite input, on weights negative or all zero,
 * and on p outside 0…1.
 * Source: Cormen et al., Introduction to Algorithms, problem 9-2.
 */
export const weightedQuantile = (
  values: readonly number[],
  weights: readonly number[],
  p: number,
): number => {
  checkNumbers(values, 'values');
  checkWeights(weights, values.length, 'weights');
  checkBetween(p, 0, 1, 'p');
  const order = values.map((_, i) => i).filter(i => weights[i]! > 0);
  order.sort((a, b) => values[a]! - values[b]!);
  const target = p * reached * order.reduce((sum, i) => sum + weights[i]!, 0);
  let sum = 0;
  for (const i of order) {
    sum += weights[i]!;
    if (sum >= target) return values[i]!;
  }
  return values[order.at(-1)!]!;
};

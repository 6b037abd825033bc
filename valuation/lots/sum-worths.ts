import type { Range, Worth } from '../types.ts';

/**
 * The 80 % range of several cars together, in minor units of the reporting currency; zeros for none. `mid` is
 * the sum of the mids, so that a total is what a reader gets by adding the lines above it. The width to each
 * side adds up what the cars share through the pooled estimate (as if wholly correlated) and, as a root of
 * squares, what is each car's own: width² = (Σ share·w)² + Σ (1 − share²)·w². Home and bids show this range;
 * how sure a margin is needs the whole distribution of the sum, which `lotWorth` gives.
 */
export const sumWorths = (worths: readonly Worth[]): Range => {
  const mid = worths.reduce((sum, worth) => sum + worth.mid, 0);
  const width = (side: (worth: Worth) => number) => {
    let sharedWidth = 0;
    let ownSquares = 0;
    for (const worth of worths) {
      const share = worth.logSd > 0 ? Math.min(1, worth.sharedSd / worth.logSd) : 1;
      sharedWidth += share * side(worth);
      ownSquares += (1 - share ** 2) * side(worth) ** 2;
    }
    return Math.round(Math.sqrt(sharedWidth ** 2 + ownSquares));
  };
  return {
    low: mid - width(worth => worth.mid - worth.low),
    mid,
    high: mid + width(worth => worth.high - worth.mid),
  };
};

import { checkBetween, checkFinite } from './check-input.ts';
import { inverseIncompleteBeta } from './incomplete-beta.ts';

export interface BetaPert {
  mean: number;
  variance: number;
  /** The value that is not exceeded with probability `p`, 0…1. */
  quantile: (p: number) => number;
}

/**
 * Quantile at `p` of the beta on 0…1 with α = `alpha` and β = 6 − α: the shape of every beta-PERT of that α.
 */
export type ShapeQuantile = (p: number, alpha: number) => number;

export const shapeQuantile: ShapeQuantile = (p, alpha) => inverseIncompleteBeta(p, alpha, 6 - alpha);

/**
 * Beta-PERT of a low, a likely and a high figure, in their unit: a beta on low…high with mean (low + 4 likely
 * + high)/6, so α = 1 + 4 (likely − low)/(high − low), β = 6 − α, and the exact variance (mean − low)(high −
 * mean)/7.
 * Where low = high the figure is certain. `ofShape` stands in for `shapeQuantile` where its answers are kept.
 *
 * Throws RangeError on non-finite input, unless low ≤ likely ≤ high, and on p outside 0…1.
 * Source: Malcolm et al. (1959), Operations Research 7; Vose, Risk Analysis (2008), PERT distribution.
 */
export const betaPert = (
  low: number,
  likely: number,
  high: number,
  ofShape: ShapeQuantile = shapeQuantile,
): BetaPert => {
  checkFinite(low, 'low');
  checkFinite(likely, 'likely');
  checkFinite(high, 'high');
  if (!(low <= likely && likely <= high))
    throw new RangeError(`low ≤ likely ≤ high must hold, not ${low}, ${likely}, ${high}`);
  const span = high - low;
  checkFinite(span, 'high − low');
  const mean = Math.min(high, Math.max(low, low + (4 * (likely - low) + span) / 6));
  const alpha = span === 0 ? 1 : 1 + (4 * (likely - low)) / span;
  const quantile = (p: number): number => {
    checkBetween(p, 0, 1, 'p');
    if (p === 0 || span === 0) return low;
    if (p === 1) return high;
    return low + span * ofShape(p, alpha);
  };
  return { mean, variance: ((mean - low) * (high - mean)) / 7, quantile };
};

import { type CredibilityGroup, summariseGroups, weightedMean } from './credibility-groups.ts';

export interface BuhlmannStraub {
  /** Variance of an observation of unit weight about its group's mean. */
  within: number;
  /** Variance of the groups' means; 0 where the estimate came out below zero, or too small for a number. */
  between: number;
  /** Mean of all: weighted by credibility, or by the plain weights where `between` is 0. */
  collective: number;
  /** Share 0…1 of each group's own mean in its estimate. */
  credibility: number[];
  estimates: number[];
}

/**
 * Bühlmann–Straub credibility with the unbiased estimators of both variances.
 *
 * For group i of weight wᵢ and mean Xᵢ: `within` s² = Σ w (x − Xᵢ)² / Σ (nᵢ − 1);
 * `between` a = max(0, w (Σ wᵢ (Xᵢ − X)² − (I − 1) s²) / (w² − Σ wᵢ²)) with w = Σ wᵢ and X the grand mean;
 * zᵢ = wᵢ / (wᵢ + s²/a), collective m = Σ zᵢ Xᵢ / Σ zᵢ, estimate zᵢ Xᵢ + (1 − zᵢ) m.
 * With a = 0, as for a single group, every z is 0 and all pool to the weighted grand mean. A group whose
 * weights are all zero has z = 0.
 * `within` is in the square of the values' unit times the unit of weight; the others in that of the values.
 *
 * Throws RangeError on empty, mismatched, negative-weight or non-finite input, and when no group has two
 * observations. No valuation calls it: the market's variances are fitted together with its factors
 * (market/settle-variances.ts), and its estimates made by market/pool-evidence.ts, which
 * tests/published/pooling.test.ts holds against the same published figures.
 * Source: Bühlmann & Straub (1970); Goulet et al., package actuar, credibility vignette, section 3.
 */
export const buhlmannStraub = (groups: readonly CredibilityGroup[]): BuhlmannStraub => {
  const { scale, summaries, centres, within } = summariseGroups(groups);
  const seen = summaries.filter(({ weight }) => weight > 0);
  const means = seen.map(({ mean }) => mean);
  const weights = seen.map(({ weight }) => weight);
  const total = weights.reduce((a, b) => a + b, 0);
  const grandMean = weightedMean(means, weights);
  const spread = seen.reduce((sum, { weight, mean }) => sum + weight * (mean - grandMean) ** 2, 0);
  // w² − Σ wᵢ² written as a sum of products, which does not cancel when one group holds
  // nearly all the weight.
  const products = weights.reduce((sum, weight) => sum + weight * (total - weight), 0);
  const between =
    seen.length < 2 ? 0 : Math.max(0, (total * (spread - (seen.length - 1) * within)) / products);
  const credibility = summaries.map(({ weight }) =>
    between === 0 ? 0 : (between * weight) / (between * weight + within || 1),
  );
  const collective =
    between === 0
      ? grandMean
      : weightedMean(
          summaries.map(({ mean }) => mean),
          credibility,
        );
  const value = (mean: number, g: number) => scale * (centres[g]! + mean);
  return {
    within: within * scale * scale,
    between: between * scale * scale,
    collective: value(collective, 0),
    credibility,
    estimates: summaries.map(({ mean }, g) => value(collective + credibility[g]! * (mean - collective), g)),
  };
};

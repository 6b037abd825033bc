import { gatherUp, thinned } from './gather-up.ts';

/** Variances of log price: of one sale about its variation, and of each level about the one above. */
export interface Variances {
  within: number;
  betweenVariations: number;
  betweenCastings: number;
  betweenSeries: number;
}

/** The tree above the sales: the casting of each variation, the series of each casting. */
export interface EvidenceTree {
  variationCasting: ArrayLike<number>;
  castingSeries: ArrayLike<number>;
  seriesCount: number;
  /**
   * 0 for a place that has nothing of its own beside its casting or series (a belief about those has one), 1
   * for others; all 1 if absent.
   */
  variationApart?: Float64Array;
  castingApart?: Float64Array;
}

export interface Evidenced extends EvidenceTree {
  /** Log residual of each sale from what is known of all, its precision, and the place of its variation. */
  values: Float64Array;
  precision: Float64Array;
  variation: ArrayLike<number>;
  /** With which precision each sale makes its node surer, where that is less than its weight in the mean. */
  sure?: Float64Array;
}

export interface PooledLevel {
  /** Posterior mean and variance of each node, and the variance that it would have if all weights were sure. */
  mean: Float64Array;
  variance: Float64Array;
  asWeighted: Float64Array;
  /** Weight of the node's own evidence against its parent's: z = τ² q / (1 + τ² q). */
  credibility: Float64Array;
  /**
   * Mean square of the node's departure from its parent, expected given the evidence: (z (x̄ −
   * m))² + its variance.
   */
  square: Float64Array;
  /** Precision of the node's own evidence; 0 where there is none. */
  precision: Float64Array;
}

interface Unsettled {
  own: Float64Array;
  precision: Float64Array;
  sure: Float64Array | undefined;
  between: number;
  /** See `EvidenceTree`. */
  apart?: Float64Array;
  above: PooledLevel | null;
  parent: ArrayLike<number>;
}

const settle = ({ own, precision, sure, between, apart, above, parent }: Unsettled): PooledLevel => {
  const count = precision.length;
  const level: PooledLevel = {
    mean: new Float64Array(count),
    variance: new Float64Array(count),
    asWeighted: new Float64Array(count),
    credibility: new Float64Array(count),
    square: new Float64Array(count),
    precision,
  };
  for (let i = 0; i < count; i++) {
    const up = above ? above.mean[parent[i]!]! : 0;
    const upVariance = above ? above.variance[parent[i]!]! : 0;
    const upAsWeighted = above ? above.asWeighted[parent[i]!]! : 0;
    const free = apart ? between * apart[i]! : between;
    const q = precision[i]! * free;
    const z = q / (1 + q);
    const departure = z * (own[i]! - up);
    level.credibility[i] = z;
    level.mean[i] = up + departure;
    const told = sure ? sure[i]! * free : q;
    const zSure = told / (1 + told);
    level.asWeighted[i] = free * (1 - z) + (1 - z) ** 2 * upAsWeighted;
    level.variance[i] = free * (1 - zSure) + (1 - zSure) ** 2 * upVariance;
    level.square[i] = departure * departure + free * (1 - zSure) + zSure * zSure * upVariance;
  }
  return level;
};

/** Sums of the children's precisions at each parent. */
const summed = (precision: Float64Array, parent: ArrayLike<number>, parents: number): Float64Array => {
  const sums = new Float64Array(parents);
  for (let i = 0; i < precision.length; i++) sums[parent[i]!]! += precision[i]!;
  return sums;
};

/** What makes each node surer, gathered up the tree; undefined where that is what it weighs. */
const surePrecisions = (
  { sure, variation, variationCasting, castingSeries, seriesCount, variationApart, castingApart }: Evidenced,
  variances: Variances,
) => {
  if (!sure) return undefined;
  const variations = summed(sure, variation, variationCasting.length);
  const ofVariations = thinned(variations, variances.betweenVariations, variationApart);
  const castings = summed(ofVariations, variationCasting, castingSeries.length);
  const ofCastings = thinned(castings, variances.betweenCastings, castingApart);
  return { variations, castings, series: summed(ofCastings, castingSeries, seriesCount) };
};

/**
 * Hierarchical Bühlmann–Straub: variations within castings within series about a collective of zero, given
 * the variances. Going up, each node's mean is that of its children weighted by 1/(τ² + 1/q); coming down,
 * each node's estimate is z × its own mean + (1 − z) × its parent's estimate, z = τ²/(τ² + 1/q), q the
 * precision of its own evidence. These are the exact posterior means and variances of the nested normal
 * model, which credibility theory calls linear credibility.
 * Source: Bühlmann & Straub (1970); Jewell (1975); Bühlmann & Gisler, A Course in Credibility
 * Theory (2005), ch. 6.
 */
export const poolEvidence = (
  evidence: Evidenced,
  variances: Variances,
): { variations: PooledLevel; castings: PooledLevel; series: PooledLevel } => {
  const { variationCasting, castingSeries, seriesCount, variationApart, castingApart } = evidence;
  const v = gatherUp(
    { rows: evidence.values, precision: evidence.precision, parent: evidence.variation },
    variationCasting.length,
    1,
  );
  const c = gatherUp(
    {
      rows: v.rows,
      precision: thinned(v.precision, variances.betweenVariations, variationApart),
      parent: variationCasting,
    },
    castingSeries.length,
    1,
  );
  const s = gatherUp(
    {
      rows: c.rows,
      precision: thinned(c.precision, variances.betweenCastings, castingApart),
      parent: castingSeries,
    },
    seriesCount,
    1,
  );
  const sure = surePrecisions(evidence, variances);
  const series = settle({
    own: s.rows,
    precision: s.precision,
    sure: sure?.series,
    between: variances.betweenSeries,
    above: null,
    parent: [],
  });
  const castings = settle({
    own: c.rows,
    precision: c.precision,
    sure: sure?.castings,
    between: variances.betweenCastings,
    apart: castingApart,
    above: series,
    parent: castingSeries,
  });
  const variations = settle({
    own: v.rows,
    precision: v.precision,
    sure: sure?.variations,
    between: variances.betweenVariations,
    apart: variationApart,
    above: castings,
    parent: variationCasting,
  });
  return { variations, castings, series };
};

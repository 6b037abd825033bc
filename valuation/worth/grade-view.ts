import { type FittedMarket, variancesOf } from '../market/fitted-market.ts';
import { gatherUp, thinned } from '../market/gather-up.ts';
import { columns } from '../market/market-columns.ts';
import { grades } from '../words.ts';
import { cachedOn, onceOn } from './cached-on.ts';

const width = columns.count + 1;

/**
 * The castings as seen from one grade: sales of that grade count in full, others less with each
 * point of distance.
 */
export interface GradeView {
  /** What a casting's estimate rests on: a row of L⁻¹ columns, and last its pooled log residual. */
  rows: Float64Array;
  /** Posterior variance of each casting's level, its credibility, and that of its series. */
  variance: Float64Array;
  /**
   * Of that, what is the casting's own, and the part of its series' level that is left open:
   * their square roots.
   */
  castingFactor: Float64Array;
  seriesFactor: Float64Array;
  credibility: Float64Array;
  precision: Float64Array;
  seriesCredibility: Float64Array;
  seriesPrecision: Float64Array;
}

/**
 * Factors by which a sale counts at each grade distance in half points: half at `gradeDistanceHalf` points.
 */
export const nearness = onceOn(({ assumptions }) =>
  Float64Array.from(grades, (_, distance) => 0.5 ** (distance / 2 / assumptions.gradeDistanceHalf)),
);

/**
 * Rows of the sales gathered up the tree, each weighted by its share of `weights` as seen from a grade step.
 */
const gather = (
  fitted: FittedMarket,
  step: number,
  { weights, rows, size }: { weights: Float64Array; rows: Float64Array; size: number },
) => {
  const { sales, slots, tree } = fitted.inside;
  const { variationCasting, castingSeries } = tree;
  const near = nearness(fitted);
  const variances = variancesOf(fitted);
  const precision = weights.map((w, i) => (w * near[Math.abs(sales[i]!.step - step)]!) / variances.within);
  const variations = gatherUp({ rows, precision, parent: slots }, variationCasting.length, size);
  const castings = gatherUp(
    {
      rows: variations.rows,
      precision: thinned(variations.precision, variances.betweenVariations, tree.variationApart),
      parent: variationCasting,
    },
    castingSeries.length,
    size,
  );
  const series = gatherUp(
    {
      rows: castings.rows,
      precision: thinned(castings.precision, variances.betweenCastings, tree.castingApart),
      parent: castingSeries,
    },
    tree.seriesCount,
    size,
  );
  return { castings, series };
};

const build = (fitted: FittedMarket, step: number): GradeView => {
  const { tree, rows, weights, certainty } = fitted.inside;
  const { castingSeries } = tree;
  const variances = variancesOf(fitted);
  const { castings, series } = gather(fitted, step, { weights, rows, size: width });
  // Where there are lots, the estimates are surer of nothing than what each tells of a car alone.
  const sure =
    certainty === weights
      ? { castings, series }
      : gather(fitted, step, { weights: certainty, rows: new Float64Array(weights.length), size: 1 });
  const credibility = (q: number, between: number) => (q * between) / (1 + q * between);
  const seriesCredibility = series.precision.map(q => credibility(q, variances.betweenSeries));
  const count = castingSeries.length;
  const view: GradeView = {
    rows: castings.rows,
    variance: new Float64Array(count),
    castingFactor: new Float64Array(count),
    seriesFactor: new Float64Array(count),
    credibility: new Float64Array(count),
    precision: castings.precision,
    seriesCredibility,
    seriesPrecision: series.precision,
  };
  for (let c = 0; c < count; c++) {
    const s = castingSeries[c]!;
    const z = credibility(castings.precision[c]!, variances.betweenCastings);
    const zSure = credibility(sure.castings.precision[c]!, variances.betweenCastings);
    const zSeries = seriesCredibility[s]!;
    const zSeriesSure = credibility(sure.series.precision[s]!, variances.betweenSeries);
    view.credibility[c] = z;
    view.variance[c] =
      variances.betweenCastings * (1 - zSure) +
      (1 - zSure) ** 2 * variances.betweenSeries * (1 - zSeriesSure);
    view.castingFactor[c] = Math.sqrt(variances.betweenCastings * (1 - zSure));
    view.seriesFactor[c] = (1 - zSure) * Math.sqrt(variances.betweenSeries * (1 - zSeriesSure));
    for (let a = 0; a < width; a++)
      view.rows[c * width + a] =
        z * castings.rows[c * width + a]! + (1 - z) * zSeries * series.rows[s * width + a]!;
  }
  return view;
};

const views = cachedOn<number, GradeView>(grades.length);

/** The view from a grade step, made once per market and grade. */
export const gradeView = (fitted: FittedMarket, step: number): GradeView =>
  views(fitted, step, () => build(fitted, step));

/**
 * The sales of each variation, as places among the market's: those of v are order[start[v]] …
 * order[start[v + 1] − 1].
 */
export const salesByVariation = onceOn(({ inside }): { start: Int32Array; order: Int32Array } => {
  const { slots, tree } = inside;
  const count = tree.variationCasting.length;
  const start = new Int32Array(count + 1);
  for (const slot of slots) start[slot + 1]!++;
  for (let v = 0; v < count; v++) start[v + 1]! += start[v]!;
  const next = start.slice();
  const order = new Int32Array(slots.length);
  slots.forEach((slot, i) => {
    order[next[slot]!++] = i;
  });
  return { start, order };
});

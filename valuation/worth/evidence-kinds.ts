import { type FittedMarket, variancesOf } from '../market/fitted-market.ts';
import { gatherUp, thinned } from '../market/gather-up.ts';
import type { Evidence } from '../types.ts';
import { evidenceKinds, grades } from '../words.ts';
import { cachedOn, onceOn } from './cached-on.ts';
import { nearness } from './grade-view.ts';
import type { SubjectPlace } from './subject-place.ts';

const width = evidenceKinds.length;

/** Shares of the kinds of evidence in the mean of every node, a row each, as seen from a grade. */
interface KindShares {
  variations: Float64Array;
  castings: Float64Array;
  series: Float64Array;
  all: Float64Array;
}

/** True where anything stands beside the sale records. */
const hasOwn = onceOn(({ inside }) => ({ any: inside.sales.some(({ from }) => from !== null) }));

const build = (fitted: FittedMarket, step: number): KindShares => {
  const { sales, slots, tree, weights } = fitted.inside;
  const near = nearness(fitted);
  const { within, betweenVariations, betweenCastings, betweenSeries } = variancesOf(fitted);
  const rows = new Float64Array(sales.length * width);
  sales.forEach(({ from }, i) => {
    rows[i * width + evidenceKinds.indexOf(from?.kind ?? 'sale')] = 1;
  });
  const precision = weights.map((w, i) => (w * near[Math.abs(sales[i]!.step - step)]!) / within);
  const { variationCasting, castingSeries, seriesCount, variationApart, castingApart } = tree;
  const v = gatherUp({ rows, precision, parent: slots }, variationCasting.length, width);
  const ofVariations = thinned(v.precision, betweenVariations, variationApart);
  const c = gatherUp(
    { rows: v.rows, precision: ofVariations, parent: variationCasting },
    castingSeries.length,
    width,
  );
  const ofCastings = thinned(c.precision, betweenCastings, castingApart);
  const s = gatherUp({ rows: c.rows, precision: ofCastings, parent: castingSeries }, seriesCount, width);
  const all = gatherUp(
    {
      rows: s.rows,
      precision: thinned(s.precision, betweenSeries),
      parent: new Int32Array(seriesCount),
    },
    1,
    width,
  );
  return { variations: v.rows, castings: c.rows, series: s.rows, all: all.rows };
};

const held = cachedOn<number, KindShares>(grades.length);

/**
 * What kinds of evidence an estimate rests on, given the shares of its variation, casting, series and of all:
 * each of those rests on the kinds as its records are weighted. Undefined where all of the market's evidence
 * is sale records.
 */
export const evidenceKindsOf = (
  fitted: FittedMarket,
  { variation, candidates, casting }: SubjectPlace,
  shares: Evidence['shares'],
  step: number,
): Evidence['kinds'] => {
  if (!hasOwn(fitted).any) return undefined;
  const { index, evidence } = fitted.inside;
  const kinds = held(fitted, step, () => build(fitted, step));
  const series = index.castingSeries[casting]!;
  const places = variation >= 0 ? [variation] : candidates;
  const own = (k: number) =>
    places.reduce((sum, v) => sum + kinds.variations[v * width + k]!, 0) / Math.max(1, places.length);
  const raw = evidenceKinds.map(
    (_, k) =>
      shares.variation * own(k) +
      shares.casting * kinds.castings[casting * width + k]! +
      shares.series * kinds.series[series * width + k]! +
      shares.everything * kinds.all[k]!,
  );
  // A node without records has no share; what small parts of several candidates leave open
  // goes to the others.
  const total = raw.reduce((sum, share) => sum + share, 0);
  const [sale, purchase, lot, belief] = raw.map(share => (total > 0 ? share / total : 0)) as [
    number,
    number,
    number,
    number,
  ];
  return {
    shares: { sale, purchase, lot, belief },
    purchases: evidence.seriesPurchases[series]!,
    lots: evidence.seriesLots[series]!,
    beliefs: evidence.seriesBeliefs[series]!,
  };
};

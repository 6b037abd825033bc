import type { FittedMarket } from '../market/fitted-market.ts';
import { thinned } from '../market/gather-up.ts';
import { priorVariances } from '../market/settle-variances.ts';
import { eightyPercent } from '../statistics/normal.ts';
import type { AssumptionSet } from '../types.ts';
import { onceOn } from './cached-on.ts';

/** High ÷ low of the 80 % range of an estimate, beyond which it tells nothing; where nothing else is said. */
const usualWidest = 8;

/** Precisions of log price that the evidence gives the nodes of the market's tree. */
export interface EvidencePrecisions {
  variations: Float64Array;
  castings: Float64Array;
  series: Float64Array;
}

/**
 * Precision with which so many sales of a casting, each of a variation that is not named and of this weight,
 * tell of it.
 */
export const castingPrecision = (weight: number, sales: number, assumptions: AssumptionSet): number => {
  const { within, betweenVariations } = priorVariances(assumptions);
  return weight > 0 ? sales / (betweenVariations + within / weight) : 0;
};

/** Precision with which a casting of this precision tells of its series. */
export const towardsSeries = (precision: number, assumptions: AssumptionSet): number =>
  precision / (1 + priorVariances(assumptions).betweenCastings * precision);

/** What the sales of a market, and what stands beside them, tell of each node. */
export const evidencePrecisions = onceOn((fitted): EvidencePrecisions => {
  const { sales, slots, tree } = fitted.inside;
  const { within, betweenVariations, betweenCastings } = priorVariances(fitted.assumptions);
  const variations = new Float64Array(tree.variationCasting.length);
  sales.forEach(({ weight }, i) => {
    variations[slots[i]!]! += weight / within;
  });
  const castings = new Float64Array(tree.castingSeries.length);
  thinned(
    variations,
    betweenVariations,
    tree.variationApart && Float64Array.from(tree.variationApart, Math.sign),
  ).forEach((q, i) => {
    castings[tree.variationCasting[i]!]! += q;
  });
  const series = new Float64Array(tree.seriesCount);
  thinned(castings, betweenCastings, tree.castingApart).forEach((q, i) => {
    series[tree.castingSeries[i]!]! += q;
  });
  return { variations, castings, series };
});

/**
 * Whether evidence of these precisions (1 / variance of log price) is enough for a value: something is known
 * of the series, and the 80 % range of the estimate, by the assumed spreads and with the series' level taken
 * from its own evidence alone, is no wider than the assumption set lets it be. The variance is τᵥ² (1 − zᵥ) +
 * (1 − zᵥ)² (τc² (1 − zc) + (1 − zc)² / qₛ), z being the credibility of each level's own evidence. By the
 * assumed spreads and not the learned ones, so that a further sale never takes a value away.
 */
export const isNarrow = (
  { variation, casting, series }: { variation: number; casting: number; series: number },
  assumptions: AssumptionSet,
): boolean => {
  if (!(series > 0)) return false;
  const { betweenVariations, betweenCastings } = priorVariances(assumptions);
  const open = (precision: number, between: number) => 1 / (1 + precision * between);
  const ofVariation = open(variation, betweenVariations);
  const ofCasting = open(casting, betweenCastings);
  const variance =
    betweenVariations * ofVariation +
    ofVariation ** 2 * (betweenCastings * ofCasting + ofCasting ** 2 / series);
  return 2 * eightyPercent * Math.sqrt(variance) <= Math.log(assumptions.widestEstimate ?? usualWidest);
};

/** What was found of each variation, and of each casting without one: 1 enough, −1 not, 0 not asked yet. */
const foundEnough = onceOn(({ inside: { tree } }) => ({
  variations: new Int8Array(tree.variationCasting.length),
  castings: new Int8Array(tree.castingSeries.length),
}));

const workOutEnough = (
  fitted: FittedMarket,
  { variation, casting }: { variation: number; casting: number },
): boolean => {
  const { index, evidence, sales } = fitted.inside;
  const series = index.castingSeries[casting]!;
  if (sales.length === 0) return false;
  if (evidence.seriesBeliefs[series]! > 0) return true;
  const told = evidencePrecisions(fitted);
  return isNarrow(
    {
      variation: variation < 0 ? 0 : told.variations[variation]!,
      casting: told.castings[casting]!,
      series: told.series[series]!,
    },
    fitted.assumptions,
  );
};

/**
 * Whether there is enough to estimate a car of a place (its variation −1 where it is not known): sales and
 * purchases that make its estimate narrow enough, or a belief about any of its series.
 */
export const isEnough = (
  fitted: FittedMarket,
  { variation, casting }: { variation: number; casting: number },
): boolean => {
  const { variations, castings } = foundEnough(fitted);
  const [held, place] = variation < 0 ? [castings, casting] : [variations, variation];
  if (held[place] === 0) held[place] = workOutEnough(fitted, { variation, casting }) ? 1 : -1;
  return held[place] === 1;
};

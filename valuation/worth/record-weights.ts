import { type FittedMarket, ownVariance, variancesOf } from '../market/fitted-market.ts';
import { thinned } from '../market/gather-up.ts';
import { nearness } from './grade-view.ts';

/**
 * Share of each sale in the estimate of a variation (−1: an unknown one of the casting) seen from a grade
 * step, in the order of the market's sales. A sale has a part in its own variation's mean, in its casting's,
 * its series' and in all: the credibility of each level shares itself out over the nodes below it as they are
 * weighted there. The shares sum to 1.
 */
export const recordWeights = (
  fitted: FittedMarket,
  variation: number,
  casting: number,
  step: number,
): Float64Array => {
  const { sales, slots, tree, weights } = fitted.inside;
  const { variationCasting, castingSeries } = tree;
  const { within, betweenVariations, betweenCastings, betweenSeries } = variancesOf(fitted);
  const near = nearness(fitted);
  const precision = weights.map((w, i) => (w * near[Math.abs(sales[i]!.step - step)]!) / within);
  const sum = (from: Float64Array, parent: ArrayLike<number>, count: number) => {
    const to = new Float64Array(count);
    for (let i = 0; i < from.length; i++) to[parent[i]!]! += from[i]!;
    return to;
  };
  const inSlot = sum(precision, slots, variationCasting.length);
  const ofSlot = thinned(inSlot, betweenVariations, tree.variationApart);
  const inCasting = sum(ofSlot, variationCasting, castingSeries.length);
  const ofCasting = thinned(inCasting, betweenCastings, tree.castingApart);
  const inSeries = sum(ofCasting, castingSeries, tree.seriesCount);
  const ofSeries = thinned(inSeries, betweenSeries);
  const inAll = ofSeries.reduce((total, q) => total + q, 0);
  const credibility = (q: number, variance: number) => (q * variance) / (1 + q * variance);
  const series = castingSeries[casting]!;
  const zOwn = variation < 0 ? 0 : credibility(inSlot[variation]!, ownVariance(fitted, variation));
  const zCasting = (1 - zOwn) * credibility(inCasting[casting]!, betweenCastings);
  const zSeries = (1 - zOwn - zCasting) * credibility(inSeries[series]!, betweenSeries);
  const rest = Math.max(0, 1 - zOwn - zCasting - zSeries);
  const share = (part: number, whole: number) => (whole > 0 ? part / whole : 0);
  return precision.map((p, i) => {
    const slot = slots[i]!;
    const c = variationCasting[slot]!;
    const s = castingSeries[c]!;
    const toSlot = share(p, inSlot[slot]!);
    const toCasting = toSlot * share(ofSlot[slot]!, inCasting[c]!);
    const toSeries = toCasting * share(ofCasting[c]!, inSeries[s]!);
    let weight = rest * toSeries * share(ofSeries[s]!, inAll);
    if (s === series) weight += zSeries * toSeries;
    if (c === casting) weight += zCasting * toCasting;
    if (slot === variation) weight += zOwn * toSlot;
    return weight;
  });
};

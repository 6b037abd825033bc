import { logSumExp } from '../statistics/log-sum-exp.ts';
import type { DesignedLot, MarketDesign, MarketTree } from './market-design.ts';
import type { PooledLevel, Variances } from './pool-evidence.ts';

interface Pooled {
  variations: PooledLevel;
  castings: PooledLevel;
  series: PooledLevel;
}

/** What a lot tells, shared over its cars. */
export interface SharedLot {
  /** Log of its price less what the fit predicts, and the variance of what is predicted. */
  residual: number;
  fitVariance: number;
  /** Share of each of its parts, in their order; they sum to 1. */
  shares: number[];
}

const totals = (places: readonly number[], amounts: readonly number[]): Map<number, number> => {
  const sums = new Map<number, number>();
  places.forEach((place, i) => {
    sums.set(place, (sums.get(place) ?? 0) + amounts[i]!);
  });
  return sums;
};

/**
 * Variance of Σ shareᵢ uᵢ, u the levels of the slots in the tree: each level adds what it alone leaves open.
 */
const varianceOfSum = ({
  slots,
  shares,
  tree,
  pooled,
  variances,
}: {
  slots: readonly number[];
  shares: readonly number[];
  tree: MarketTree;
  pooled: Pooled;
  variances: Variances;
}): number => {
  let variance = 0;
  const add = (sums: Map<number, number>, level: PooledLevel, between: number, apart?: Float64Array) => {
    const places = [...sums.keys()];
    const left = places.map(place => sums.get(place)! * (1 - level.credibility[place]!));
    places.forEach((place, i) => {
      variance += sums.get(place)! * left[i]! * between * (apart?.[place] ?? 1);
    });
    return { places, left };
  };
  const inSlots = totals(slots, shares);
  const v = add(inSlots, pooled.variations, variances.betweenVariations, tree.variationApart);
  const inCastings = totals(
    v.places.map(slot => tree.variationCasting[slot]!),
    v.left,
  );
  const c = add(inCastings, pooled.castings, variances.betweenCastings, tree.castingApart);
  const inSeries = totals(
    c.places.map(casting => tree.castingSeries[casting]!),
    c.left,
  );
  add(inSeries, pooled.series, variances.betweenSeries);
  return variance;
};

/**
 * The expectation step for a lot. The price of each car in it is the missing figure: the lot's price is the
 * sum of single sales, of which car i is predicted to bring exp(mᵢ + vᵢ/2), m its log price by the fit and v
 * its variance. So ln of the sum is predicted as ln Σ exp(mᵢ + vᵢ/2) − ½ var (Fenton's lognormal of the same
 * mean and variance), and its slope in mᵢ is the share sᵢ of car i. A lot counts as one sale: as observations
 * of its cars with weights sᵢ, each at mᵢ + residual. Their weighted sum is the lot's own log price and has
 * the variance of one sale, and where the steps come to rest the estimates are those which the lot's price
 * itself makes most likely.
 * Source: Dempster, Laird & Rubin (1977), JRSS B 39; Fenton (1960), IRE Transactions on
 * Communications Systems 8.
 */
export const shareLot = ({
  lot,
  predicted,
  design: { slots, tree },
  pooled,
  variances,
}: {
  lot: DesignedLot;
  /** Log price of each of its parts by the fit, in minor units. */
  predicted: readonly number[];
  design: MarketDesign;
  pooled: Pooled;
  variances: Variances;
}): SharedLot => {
  const places = lot.parts.map(i => slots[i]!);
  const logs = predicted.map(
    (mean, k) => mean + (variances.within + pooled.variations.variance[places[k]!]!) / 2,
  );
  const log = logSumExp(logs);
  const shares = logs.map(one => Math.exp(one - log));
  const fitVariance = varianceOfSum({ slots: places, shares, tree, pooled, variances });
  const noise = variances.within * shares.reduce((sum, share) => sum + share * share, 0);
  return { residual: lot.log - (log - (fitVariance + noise) / 2), fitVariance, shares };
};

import type { AssumptionSet } from '../types.ts';
import { type LabelDoubt, settleDoubt } from './label-doubt.ts';
import { columns } from './market-columns.ts';
import type { MarketDesign } from './market-design.ts';
import { type PooledLevel, poolEvidence, type Variances } from './pool-evidence.ts';
import { leftOutDeparture, robustWeight } from './robust-weight.ts';
import { shareLot } from './share-lots.ts';

/** Variances below this (a tenth of a per cent in price) are as good as none, and keep logs finite. */
const least = 1e-6;

/** What the fit knows of each sale besides its place: all of it changes from step to step. */
export interface SaleStates {
  /**
   * Log price less offset and centre, and weight: what was told, but for the cars of a lot, whose shares are
   * found step by step.
   */
  values: Float64Array;
  weights: Float64Array;
  /** Log residual from the effects that all share. */
  residuals: Float64Array;
  /** Weight against wildness, 0…1, and precision beside that of a graded sale, 0…1. */
  robust: Float64Array;
  clarity: Float64Array;
  /** From what the others predict: in standard deviations, and in logs. */
  departures: Float64Array;
  apart: Float64Array;
}

/** States of the sales before the first round: no residuals, full weights. */
export const newStates = ({ rows, weights }: MarketDesign): SaleStates => {
  const count = weights.length;
  const width = columns.count + 1;
  return {
    values: Float64Array.from(weights, (_, i) => rows[i * width + columns.count]!),
    weights,
    residuals: new Float64Array(count),
    robust: new Float64Array(count).fill(1),
    clarity: new Float64Array(count).fill(1),
    departures: new Float64Array(count),
    apart: new Float64Array(count),
  };
};

/** The assumed variances of log price by level, none below the least with which the fit stays defined. */
export const priorVariances = ({ prior }: AssumptionSet): Variances => ({
  within: Math.max(least, prior.within ** 2),
  betweenVariations: Math.max(least, prior.betweenVariations ** 2),
  betweenCastings: Math.max(least, prior.betweenCastings ** 2),
  betweenSeries: Math.max(least, prior.betweenSeries ** 2),
});

/**
 * Precision (1 / variance of log price) of each sale: its weight, robust weight and clarity over the variance
 * within a variation, times `informationScale`: 1, or Σw / Σw² of the weights, which makes them add up to
 * Kish's effective number of sales.
 */
export const precisionOf = (
  { robust, clarity, weights }: SaleStates,
  informationScale: number,
  within: number,
): Float64Array => weights.map((w, i) => (clarity[i]! * robust[i]! * w * informationScale) / within);

/**
 * Mean square of the departures of a level's nodes from their parents, the assumed variance counting as
 * `strength` of them. Left out are nodes of which nothing but the shares of lots tells (`told` 0): those
 * follow the estimate, and say nothing of how far it spreads.
 */
const meanSquare = (
  { square, precision }: PooledLevel,
  prior: number,
  strength: number,
  told: Uint8Array | undefined,
  apart?: Float64Array,
): number => {
  let sum = strength * prior;
  let count = strength;
  for (let i = 0; i < square.length; i++) {
    if (precision[i] === 0 || told?.[i] === 0 || apart?.[i] === 0) continue;
    // A node that may lie farther from its parent tells of the others' spread as much less.
    sum += apart ? square[i]! / Math.max(1e-9, apart[i]!) : square[i]!;
    count++;
  }
  return count > 0 ? Math.max(least, sum / count) : prior;
};

/** Which nodes of each level can tell of its variance. */
export interface ToldNodes {
  variations: Uint8Array;
  castings: Uint8Array;
  series: Uint8Array;
}

/**
 * The nodes that depart from their parent and of which more is told than shares of lots; null where there are
 * neither lots nor beliefs.
 */
export const toldNodes = ({ lotOf, lots, slots, tree }: MarketDesign): ToldNodes | null => {
  const { variationCasting, castingSeries, variationApart, castingApart } = tree;
  if (lots.length === 0 && !variationApart) return null;
  const told: ToldNodes = {
    variations: new Uint8Array(variationCasting.length),
    castings: new Uint8Array(castingSeries.length),
    series: new Uint8Array(tree.seriesCount),
  };
  for (let i = 0; i < slots.length; i++) {
    if (lotOf[i]! >= 0) continue;
    const slot = slots[i]!;
    const casting = variationCasting[slot]!;
    told.variations[slot] = variationApart?.[slot] === 0 ? 0 : 1;
    told.castings[casting] = castingApart?.[casting] === 0 ? 0 : 1;
    told.series[castingSeries[casting]!] = 1;
  }
  return told;
};

export interface SettleInput {
  design: MarketDesign;
  states: SaleStates;
  variances: Variances;
  prior: { variances: Variances; strength: number };
  informationScale: number;
  /** The number of shared effects that the records told. */
  freedom: number;
  told: ToldNodes | null;
  /** Null where labels are taken as they are. */
  labels: LabelDoubt | null;
  labelsStand: boolean;
  /** Log of the rarity factor of each variation. */
  rarityLogs: Float64Array;
}

/** A sale or lot as it is taken into the variance of one sale. */
interface Taken {
  residual: number;
  /** Posterior variance of what is fitted, and by the weights alone. */
  fitVariance: number;
  asWeighted: number;
  weight: number;
  clarity: number;
  robust: number;
  /** Chance that it is booked rightly. */
  right: number;
}

/**
 * One step of expectation–maximisation: pools the residuals given the variances, sets each sale's weight by
 * how far it lies from what the others predict and by how likely it is booked rightly, shares every lot over its cars, and gives the variances that
 * this makes most likely, the assumed ones counting as `prior.strength` observations each. A lot counts as
 * one observation, with one weight for all its parts. `moved` is the largest change.
 * Source: Dempster, Laird & Rubin (1977), JRSS B 39.
 */
export const settleVariances = ({
  design,
  states: before,
  variances,
  prior,
  informationScale,
  freedom,
  told,
  labels: labelsBefore,
  labelsStand,
  rarityLogs,
}: SettleInput): {
  states: SaleStates;
  variances: Variances;
  labels: LabelDoubt | null;
  moved: number;
} => {
  const { slots, tree, lotOf, lots, offsets, centre } = design;
  const { strength, variances: start } = prior;
  const states: SaleStates = {
    ...before,
    robust: before.robust.slice(),
    departures: before.departures.slice(),
    apart: before.apart.slice(),
  };
  const precision = precisionOf(before, informationScale, variances.within);
  const pooled = poolEvidence(
    {
      values: before.residuals,
      precision,
      ...(labelsBefore && { sure: precision.map((q, i) => q * labelsBefore.sure[i]!) }),
      variation: slots,
      ...tree,
    },
    variances,
  );
  let within = strength * start.within;
  let observations = strength;
  let moved = 0;
  /** Takes an observation into the variance within, and gives its weight against wildness again. */
  const take = ({ residual, fitVariance, asWeighted, weight, clarity, robust, right }: Taken) => {
    const w = weight * informationScale * robust;
    const sale = variances.within / clarity;
    within += w * clarity * (residual * residual + fitVariance);
    observations += w;
    // What labels leave open of the others stays open without the sale.
    const leftOut = leftOutDeparture(residual, sale + fitVariance - asWeighted, sale / w, asWeighted);
    const next = robustWeight(leftOut.departure) * right;
    moved = Math.max(moved, Math.abs(next - robust));
    return { ...leftOut, next };
  };
  for (let i = 0; i < slots.length; i++) {
    if (lotOf[i]! >= 0) continue;
    const slot = slots[i]!;
    const { next, departure, apart } = take({
      residual: before.residuals[i]! - pooled.variations.mean[slot]!,
      fitVariance: pooled.variations.variance[slot]!,
      asWeighted: pooled.variations.asWeighted[slot]!,
      weight: before.weights[i]!,
      clarity: before.clarity[i]!,
      robust: before.robust[i]!,
      right: labelsBefore?.right[i] ?? 1,
    });
    states.robust[i] = next;
    states.departures[i] = departure;
    states.apart[i] = apart;
  }
  const labels =
    !labelsBefore || labelsStand
      ? labelsBefore
      : settleDoubt({
          design,
          before: labelsBefore,
          residuals: before.residuals,
          departures: states.departures,
          apart: states.apart,
          sale: before.clarity.map(clarity => variances.within / clarity),
          variations: pooled.variations,
          rarityLogs,
        });
  if (lots.length > 0) {
    states.residuals = before.residuals.slice();
    states.values = before.values.slice();
    states.weights = before.weights.slice();
  }
  for (const lot of lots) {
    /** What the shared effects say of each part, less its offset and the centre. */
    const shared = lot.parts.map(i => before.values[i]! - before.residuals[i]!);
    const means = lot.parts.map((i, k) => shared[k]! + pooled.variations.mean[slots[i]!]!);
    const { residual, fitVariance, shares } = shareLot({
      lot,
      predicted: lot.parts.map((i, k) => means[k]! + offsets[i]! + centre),
      design,
      pooled,
      variances,
    });
    const first = lot.parts[0]!;
    const { next, departure, apart } = take({
      residual,
      fitVariance,
      asWeighted: fitVariance,
      weight: lot.weight,
      clarity: 1,
      robust: before.robust[first]!,
      right: 1,
    });
    lot.parts.forEach((i, k) => {
      const value = means[k]! + residual;
      const weight = lot.weight * shares[k]!;
      moved = Math.max(moved, Math.abs(value - before.values[i]!), Math.abs(weight - before.weights[i]!));
      states.values[i] = value;
      states.residuals[i] = value - shared[k]!;
      states.weights[i] = weight;
      states.robust[i] = next;
      states.departures[i] = departure;
      states.apart[i] = apart;
    });
  }
  within += variances.within * Math.min(freedom, observations / 2);
  const settled: Variances = {
    within: observations > 0 ? Math.max(least, within / observations) : start.within,
    betweenVariations: meanSquare(
      pooled.variations,
      start.betweenVariations,
      strength,
      told?.variations,
      tree.variationApart,
    ),
    betweenCastings: meanSquare(pooled.castings, start.betweenCastings, strength, told?.castings),
    betweenSeries: meanSquare(pooled.series, start.betweenSeries, strength, told?.series),
  };
  for (const key of ['within', 'betweenVariations', 'betweenCastings', 'betweenSeries'] as const)
    moved = Math.max(moved, Math.abs(Math.log(settled[key] / variances[key])));
  return { states, variances: settled, labels, moved };
};

import type { AssumptionSet } from '../types.ts';
import type { MarketDesign } from './market-design.ts';
import { type PooledLevel, poolEvidence, type Variances } from './pool-evidence.ts';
import { leftOutDeparture, robustWeight } from './robust-weight.ts';

/** Variances below this (a tenth of a per cent in price) are as good as none, and keep logs finite. */
const least = 1e-6;

/** What the fit knows of each sale besides its place: all of it changes from step to step. */
export interface SaleStates {
  /** Log residual from the effects that all share. */
  residuals: Float64Array;
  /** Weight against wildness, 0…1, and precision beside that of a graded sale, 0…1. */
  robust: Float64Array;
  clarity: Float64Array;
  /** From what the others foretell: in standard deviations, and in logs. */
  departures: Float64Array;
  apart: Float64Array;
}

/** States of `count` sales before the first round: no residuals, full weights. */
export const newStates = (count: number): SaleStates => ({
  residuals: new Float64Array(count),
  robust: new Float64Array(count).fill(1),
  clarity: new Float64Array(count).fill(1),
  departures: new Float64Array(count),
  apart: new Float64Array(count),
});

/** The assumed variances of log price by level, none below the least with which the fit stays defined. */
export const priorVariances = ({ prior }: AssumptionSet): Variances => ({
  within: Math.max(least, prior.within ** 2),
  betweenVariations: Math.max(least, prior.betweenVariations ** 2),
  betweenCastings: Math.max(least, prior.betweenCastings ** 2),
  betweenSeries: Math.max(least, prior.betweenSeries ** 2),
});

/**
 * Precision (1 / variance of log price) of each sale: its weight, robust weight and clarity over the variance
 * within a variation, times `informationScale`: 1, or Σw / Σw² of the weights, which makes them add up to Kish's effective number of sales.
 */
export const precisionOf = (
  { weights }: MarketDesign,
  { robust, clarity }: SaleStates,
  informationScale: number,
  within: number,
): Float64Array => weights.map((w, i) => (clarity[i]! * robust[i]! * w * informationScale) / within);

/** Mean square of the departures of a level's nodes from their parents, the assumed variance counting as `strength` of them. */
const meanSquare = ({ square, precision }: PooledLevel, prior: number, strength: number): number => {
  let sum = strength * prior;
  let count = strength;
  for (let i = 0; i < square.length; i++) {
    if (precision[i] === 0) continue;
    sum += square[i]!;
    count++;
  }
  return count > 0 ? Math.max(least, sum / count) : prior;
};

/**
 * One step of expectation–maximisation: pools the residuals given the variances, sets each sale's weight by how far it lies from what the
 * others foretell (in `states`, in place), and gives the variances that this makes most likely, the assumed ones counting as `prior.strength`
 * observations each. `freedom` is the number of shared effects that the records told. `moved` is the largest change.
 * Source: Dempster, Laird & Rubin (1977), JRSS B 39.
 */
export const settleVariances = ({
  design,
  states,
  variances,
  prior,
  informationScale,
  freedom,
}: {
  design: MarketDesign;
  states: SaleStates;
  variances: Variances;
  prior: { variances: Variances; strength: number };
  informationScale: number;
  freedom: number;
}): { variances: Variances; moved: number } => {
  const { slots, slotCasting, castingSeries, seriesCount, weights } = design;
  const { strength, variances: start } = prior;
  const pooled = poolEvidence(
    {
      values: states.residuals,
      precision: precisionOf(design, states, informationScale, variances.within),
      variation: slots,
      variationCasting: slotCasting,
      castingSeries,
      seriesCount,
    },
    variances,
  );
  let within = strength * start.within;
  let observations = strength;
  let moved = 0;
  for (let i = 0; i < slots.length; i++) {
    const r = states.residuals[i]! - pooled.variations.mean[slots[i]!]!;
    const fitVariance = pooled.variations.variance[slots[i]!]!;
    const w = weights[i]! * informationScale * states.robust[i]!;
    const sale = variances.within / states.clarity[i]!;
    within += w * states.clarity[i]! * (r * r + fitVariance);
    observations += w;
    const leftOut = leftOutDeparture(r, sale, sale / w, fitVariance);
    const weight = robustWeight(leftOut.departure);
    moved = Math.max(moved, Math.abs(weight - states.robust[i]!));
    states.robust[i] = weight;
    states.departures[i] = leftOut.departure;
    states.apart[i] = leftOut.apart;
  }
  within += variances.within * Math.min(freedom, observations / 2);
  const next: Variances = {
    within: observations > 0 ? Math.max(least, within / observations) : start.within,
    betweenVariations: meanSquare(pooled.variations, start.betweenVariations, strength),
    betweenCastings: meanSquare(pooled.castings, start.betweenCastings, strength),
    betweenSeries: meanSquare(pooled.series, start.betweenSeries, strength),
  };
  for (const key of ['within', 'betweenVariations', 'betweenCastings', 'betweenSeries'] as const)
    moved = Math.max(moved, Math.abs(Math.log(next[key] / variances[key])));
  return { variances: next, moved };
};

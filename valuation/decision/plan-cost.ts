import { betaPert } from '../statistics/beta-pert.ts';
import { normalQuantile } from '../statistics/normal.ts';
import type { Minor, Range, RestorationPlan, ThreePoint } from '../types.ts';

/** An uncertain cost in minor units of the reporting currency. */
export interface Cost {
  mean: number;
  mid: number;
  range: Range;
  /**
   * Amounts that are equally likely, and have the cost's mean and variance: what stands for it where it is
   * weighed.
   */
  points: readonly number[];
  /** More of them, for where worths are so certain that the cost alone decides. */
  finePoints: readonly number[];
}

/** The three-point costs that a plan adds up: its lines, and its hours at what an hour costs the owner. */
export const planComponents = (
  plan: Pick<RestorationPlan, 'lines' | 'hours'>,
  hourlyRate: Minor,
): ThreePoint[] => {
  if (!(Number.isFinite(hourlyRate) && hourlyRate >= 0))
    throw new RangeError(`hourly rate must not be below zero, and is ${hourlyRate}`);
  const { low, likely, high } = plan.hours;
  const work = { low: low * hourlyRate, likely: likely * hourlyRate, high: high * hourlyRate };
  return [...plan.lines.map(({ cost }) => cost), work].filter(({ high: most }) => most !== 0);
};

/** Standard normal quantiles in the middle of so many equally likely parts. */
const middles = (count: number) => Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
const four = middles(4);
const fine = middles(32);

/** Third central moment of a beta-PERT, from α + β = 6. */
const thirdMoment = ({ low, likely, high }: ThreePoint, variance: number): number => {
  if (high === low) return 0;
  const alpha = 1 + (4 * (likely - low)) / (high - low);
  const beta = 6 - alpha;
  const skewness = (2 * (beta - alpha) * Math.sqrt(7)) / (8 * Math.sqrt(alpha * beta));
  return skewness * variance ** 1.5;
};

/** Equally likely amounts with a mean and a standard deviation, bent by a skewness. */
const pointsOf = (grid: readonly number[], mean: number, sd: number, skewness: number): number[] => {
  const bent = grid.map(z => z + (skewness * (z * z - 1)) / 6);
  const middle = bent.reduce((sum, x) => sum + x, 0) / bent.length;
  const spread = Math.sqrt(bent.reduce((sum, x) => sum + (x - middle) ** 2, 0) / bent.length);
  return bent.map(x => Math.max(0, mean + (sd * (x - middle)) / spread));
};

/**
 * Adds up independent beta-PERT costs: their means, variances and third moments, exactly. Low, mid and high
 * are the 10, 50 and 90 % quantiles: of the beta itself for one cost, of the sum by its first three moments,
 * between the least and the most that it can come to.
 * Throws RangeError on a cost below zero or out of order.
 * Source: Cornish & Fisher (1938), Revue de l’Institut International de Statistique 5, to the term of the
 * skewness.
 */
export const addCosts = (components: readonly ThreePoint[]): Cost => {
  let mean = 0;
  let variance = 0;
  let third = 0;
  let least = 0;
  let most = 0;
  for (const one of components) {
    const { low, likely, high } = one;
    if (low < 0) throw new RangeError(`a cost must not be below zero, and is ${low}`);
    const pert = betaPert(low, likely, high);
    mean += pert.mean;
    variance += pert.variance;
    third += thirdMoment(one, pert.variance);
    least += low;
    most += high;
  }
  const sd = Math.sqrt(variance);
  if (sd === 0) {
    const certain = Math.round(mean);
    const range = { low: certain, mid: certain, high: certain };
    return { mean, mid: mean, range, points: [mean], finePoints: [mean] };
  }
  const skewness = third / (variance * sd);
  const [only] = components;
  const single = components.length === 1 && only ? betaPert(only.low, only.likely, only.high) : null;
  const at = (p: number) => {
    if (single) return single.quantile(p);
    const z = normalQuantile(p);
    return Math.min(most, Math.max(least, mean + sd * (z + (skewness * (z * z - 1)) / 6)));
  };
  const mid = at(0.5);
  return {
    mean,
    mid,
    range: { low: Math.round(at(0.1)), mid: Math.round(mid), high: Math.round(at(0.9)) },
    points: pointsOf(four, mean, sd, skewness),
    finePoints: pointsOf(fine, mean, sd, skewness),
  };
};

/** The same cost in proportion, with `mid` as its median; a cost of nothing becomes that sum for certain. */
export const costWithMid = (cost: Cost, mid: number): Cost => {
  const scale = cost.mid > 0 ? mid / cost.mid : 0;
  return {
    mean: cost.mid > 0 ? cost.mean * scale : mid,
    mid,
    range: {
      low: Math.round(cost.mid > 0 ? cost.range.low * scale : mid),
      mid: Math.round(mid),
      high: Math.round(cost.mid > 0 ? cost.range.high * scale : mid),
    },
    points: cost.mid > 0 ? cost.points.map(x => x * scale) : [mid],
    finePoints: cost.mid > 0 ? cost.finePoints.map(x => x * scale) : [mid],
  };
};

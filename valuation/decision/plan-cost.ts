import { betaPert } from '../statistics/beta-pert.ts';
import { quantileOfSorted } from '../statistics/quantile.ts';
import type { Minor, Range, RestorationPlan, ThreePoint } from '../types.ts';

/**
 * An uncertain cost in minor units of the reporting currency: its mean, and one draw for each
 * point of the sample.
 */
export interface Cost {
  mean: number;
  mid: number;
  range: Range;
  draws: Float64Array;
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

/** One draw of a cost for each point: its beta-PERT quantiles there. */
const drawn = ({ low, likely, high }: ThreePoint, points: Float64Array): Float64Array => {
  const { quantile } = betaPert(low, likely, high);
  return points.map(quantile);
};

/**
 * Adds up independent beta-PERT costs. Mean: the sum of their means, exactly. Draws: each component takes its
 * own coordinates of the sample, one list per component, through its quantile function. Low, mid and high are
 * the 10, 50 and 90 % quantiles of the draws. `drawsOf` stands in for drawing a component (with its place
 * among them) where draws are kept. Throws RangeError on a cost below zero or out of order.
 */
export const addCosts = (
  components: readonly ThreePoint[],
  points: readonly Float64Array[],
  drawsOf: (component: ThreePoint, place: number) => Float64Array = (one, k) => drawn(one, points[k]!),
): Cost => {
  const count = points[0]?.length ?? 0;
  const draws = new Float64Array(count);
  let mean = 0;
  components.forEach((component, k) => {
    const { low, likely, high } = component;
    if (low < 0) throw new RangeError(`a cost must not be below zero, and is ${low}`);
    mean += betaPert(low, likely, high).mean;
    if (count === 0) return;
    const own = drawsOf(component, k);
    for (let i = 0; i < count; i++) draws[i]! += own[i]!;
  });
  if (count === 0) {
    const certain = Math.round(mean);
    return { mean, mid: mean, range: { low: certain, mid: certain, high: certain }, draws };
  }
  const sorted = draws.toSorted();
  const at = (p: number) => quantileOfSorted(sorted, p);
  return {
    mean,
    mid: at(0.5),
    range: { low: Math.round(at(0.1)), mid: Math.round(at(0.5)), high: Math.round(at(0.9)) },
    draws,
  };
};

/** The same cost in proportion, with `mid` as its median; a cost of nothing becomes that sum for certain. */
export const costWithMid = (cost: Cost, mid: number): Cost => {
  const scale = cost.mid > 0 ? mid / cost.mid : 0;
  const draws = cost.mid > 0 ? cost.draws.map(x => x * scale) : cost.draws.map(() => mid);
  return {
    mean: cost.mid > 0 ? cost.mean * scale : mid,
    mid,
    range: {
      low: Math.round(cost.mid > 0 ? cost.range.low * scale : mid),
      mid: Math.round(mid),
      high: Math.round(cost.mid > 0 ? cost.range.high * scale : mid),
    },
    draws,
  };
};

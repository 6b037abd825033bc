import type { InTurns } from '../in-turns.ts';
import { isotonic } from '../statistics/isotonic.ts';
import type { AssumptionSet, TimeModel } from '../types.ts';
import { finishStates, grades } from '../words.ts';
import { unknownGradeSteps } from './assumed-curve.ts';
import { type LabelDoubt, newDoubt } from './label-doubt.ts';
import { columnPrecisions, columns, curveCells, yearLengths, yearsWithin } from './market-columns.ts';
import type { MarketDesign } from './market-design.ts';
import type { Variances } from './pool-evidence.ts';
import {
  newStates,
  precisionOf,
  priorVariances,
  type SaleStates,
  settleVariances,
  toldNodes,
} from './settle-variances.ts';
import { type SharedEffects, sharedEffects } from './shared-effects.ts';

const width = columns.count + 1;
const steps = grades.length;
const mostRounds = 25;
/** Steps of the variances and the weights between two fits of the shared effects. */
const innerSteps = 6;
/** Rounds after which labels stand: they come to rest slowly, and by little. */
const labelRounds = 8;
/** Changes of weights and of logs of variances below this count as none. */
const still = 1e-4;

export interface RoundsResult extends SaleStates {
  effects: SharedEffects;
  /** Fitted log price of each finish state × 19 + grade step, relative to C10 original but for the level. */
  curve: Float64Array;
  variances: Variances;
  /** What is doubted of the labels; null where they are taken as they are. */
  labels: LabelDoubt | null;
  /**
   * By which weights were scaled to tell what they tell together; whoever pools with them
   * must scale them too.
   */
  informationScale: number;
  /** Log of the factor by which the variance of one sale changes with each grade point. */
  noiseSlope: number;
  /** Variance of the change of the market level in a year; null where no such changes are fitted. */
  yearly: number | null;
  rounds: number;
  stable: boolean;
}

/** The assumed variance of yearly changes counts as so many of them. */
const yearlyStrength = 4;

/**
 * The variance of yearly changes that makes the ones that were found most likely, one step of expectation–
 * maximisation; only the stretches of years in which there were sales tell.
 */
export const settleYearly = (
  { estimate, variance }: Pick<SharedEffects, 'estimate' | 'variance'>,
  prior: number,
  oldest: number,
): number => {
  let sum = yearlyStrength * prior;
  let count = yearlyStrength;
  for (let k = 0; k < columns.years && yearsWithin(oldest, k) > 0; k++) {
    const a = columns.firstYear + k;
    sum += yearLengths[k]! * (estimate[a]! ** 2 + variance[a]!);
    count++;
  }
  return sum / count;
};

const oldestOf = ({ rows, slots }: MarketDesign): number => {
  let oldest = 0;
  for (let i = 0; i < slots.length; i++) oldest = Math.max(oldest, -rows[i * width + columns.trend]!);
  return oldest;
};

/**
 * The assumption plus the fitted effects, made to rise with grade by isotonic regression weighted by the
 * records at each grade.
 */
const curveOf = (
  estimate: Float64Array,
  { assumed, cells }: MarketDesign,
  weights: Float64Array,
): Float64Array => {
  const evidence = new Float64Array(assumed.length).fill(1);
  for (let i = 0; i < cells.length; i++) evidence[cells[i]!]! += weights[i]!;
  const raw = assumed.map((log, cell) =>
    curveCells[cell]!.reduce((sum, x, a) => sum + estimate[a]! * x, log),
  );
  const curve = new Float64Array(assumed.length);
  for (let from = 0; from < finishStates.length * steps; from += steps) {
    const stretch = (values: Float64Array) => Array.from(values.subarray(from, from + steps));
    curve.set(isotonic(stretch(raw), stretch(evidence)), from);
  }
  return curve;
};

/** How far the noise may change with grade before the records say so: standard deviation of its slope. */
const noiseSlopeSd = 0.06;
const middleGrade = 6;
const steepest = 0.3;

/** Factors of the variance of one sale at each grade step. */
export const noiseFactors = (slope: number): Float64Array =>
  Float64Array.from(grades, grade => Math.exp(slope * (grade - middleGrade)));

/**
 * One step of Fisher scoring for the slope of log variance over grades, by the squares of the departures of
 * graded sales, held to none by a normal prior.
 */
const settleNoise = (
  { cells, ungraded, lotOf, beliefs }: MarketDesign,
  states: SaleStates,
  slope: number,
): number => {
  let score = -slope / noiseSlopeSd ** 2;
  let information = 1 / noiseSlopeSd ** 2;
  for (let i = 0; i < cells.length; i++) {
    if (ungraded[i] || beliefs[i] || lotOf[i]! >= 0) continue;
    const x = grades[cells[i]! % steps]! - middleGrade;
    const weight = states.robust[i]! * states.weights[i]!;
    score += (weight * x * (states.departures[i]! ** 2 - 1)) / 2;
    information += (weight * x * x) / 2;
  }
  return Math.max(-steepest, Math.min(steepest, slope + score / information));
};

/** Variance that an unknown grade adds at a cell: the square of what the curve changes over that distance. */
const unknownGradeVariance = (curve: Float64Array, cell: number, doubt: number): number => {
  const from = cell - (cell % steps);
  const down = Math.max(from, cell - unknownGradeSteps);
  const up = Math.min(from + steps - 1, cell + unknownGradeSteps);
  return (((curve[up]! - curve[down]!) * doubt) / (up - down)) ** 2;
};

/**
 * The states with their residuals from the shared effects, and how clearly each sale tells, given what
 * one sale varies.
 */
const withResiduals = ({
  design: { rows, cells, assumed, ungraded, ranges, gradeDoubt },
  states,
  estimate,
  curve,
  within,
  noise,
}: {
  design: MarketDesign;
  states: SaleStates;
  estimate: Float64Array;
  curve: Float64Array;
  within: number;
  noise: Float64Array;
}): SaleStates => {
  const residuals = new Float64Array(cells.length);
  const clarity = states.clarity.slice();
  for (let i = 0; i < cells.length; i++) {
    const cell = cells[i]!;
    let fit = curve[cell]! - assumed[cell]!;
    // The curve's own columns are in the curve already; level, trend and rarities come before them.
    for (let a = 0; a < columns.firstOfCurve; a++) fit += estimate[a]! * rows[i * width + a]!;
    residuals[i] = states.values[i]! - fit;
    const sale = within * noise[cell % steps]!;
    clarity[i] = 1 / noise[cell % steps]!;
    if (ungraded[i]) clarity[i] = within / (sale + unknownGradeVariance(curve, cell, gradeDoubt));
    // A range wider than what one sale varies is less sure than one.
    else if (ranges[i]! > 0) clarity[i] = Math.min(1, within / ranges[i]!);
  }
  return { ...states, residuals, clarity };
};

/** The rows with the values that the sales have in a step: their own but for the cars of lots. */
export const rowsWith = ({ rows, lots }: MarketDesign, { values }: SaleStates): Float64Array => {
  if (lots.length === 0) return rows;
  const filled = rows.slice();
  for (let i = 0; i < values.length; i++) filled[i * width + columns.count] = values[i]!;
  return filled;
};

/**
 * Σw / Σw² of the weights, which makes them add up to Kish's effective number of observations. A lot has
 * one weight; beliefs, which count for as many sales as their owner says, have none in it. 1 where there
 * is nothing else.
 * Source: Kish, Survey Sampling (1965), § 11.7.
 */
const informationScaleOf = ({ weights, lotOf, lots, beliefs }: MarketDesign): number => {
  let total = 0;
  let squares = 0;
  const take = (w: number) => {
    total += w;
    squares += w * w;
  };
  for (let i = 0; i < weights.length; i++) if (lotOf[i]! < 0 && !beliefs[i]) take(weights[i]!);
  for (const { weight } of lots) take(weight);
  return squares > 0 ? total / squares : 1;
};

/** Log of the rarity factor of each variation by the effects. */
const rarityLogsOf = ({ rarities, spans }: MarketDesign, estimate: Float64Array): Float64Array => {
  const logs = new Map(
    [...spans].map(([key, { cell, log }]) => [key, cell.reduce((sum, x, a) => sum + x * estimate[a]!, log)]),
  );
  return Float64Array.from(rarities, rarity => logs.get(rarity)!);
};

/**
 * Fits the shared effects (level, trend, rarities, finish states, grade curve), the variances of the
 * pooling, the weight of each record against wildness and a wrong label, and the shares of the cars of lots, in turns
 * until nothing moves.
 */
export const fitRounds = function* (
  design: MarketDesign,
  assumptions: AssumptionSet,
  time: TimeModel,
): InTurns<RoundsResult> {
  const informationScale = informationScaleOf(design);
  const oldest = oldestOf(design);
  const assumedYearly = assumptions.prior.trend ** 2;
  let yearly = time === 'steps' ? assumedYearly : null;
  const prior = { variances: priorVariances(assumptions), strength: assumptions.prior.strength };
  const told = toldNodes(design);
  let states = newStates(design);
  let { variances } = prior;
  let labels = newDoubt(design);
  let effects: SharedEffects;
  let curve: Float64Array;
  let noiseSlope = 0;
  let rounds = 0;
  let moved = 0;
  do {
    rounds++;
    effects = sharedEffects(
      {
        rows: rowsWith(design, states),
        width,
        precision: precisionOf(states, informationScale, variances.within),
        variation: design.slots,
        ...design.tree,
        prior: columnPrecisions(assumptions.prior, { trend: time === 'trend', yearly }),
      },
      variances,
    );
    yield;
    curve = curveOf(effects.estimate, design, states.weights);
    states = withResiduals({
      design,
      states,
      estimate: effects.estimate,
      curve,
      within: variances.within,
      noise: noiseFactors(noiseSlope),
    });
    const rarityLogs = rarityLogsOf(design, effects.estimate);
    moved = 0;
    if (yearly !== null && yearly > 0) {
      const next = settleYearly(effects, assumedYearly, oldest);
      moved = Math.abs(Math.log(next / yearly));
      yearly = next;
    }
    for (let inner = 0; inner < innerSteps; inner++) {
      yield;
      const step = settleVariances({
        design,
        states,
        variances,
        prior,
        informationScale,
        freedom: effects.freedom,
        told,
        labels,
        labelsStand: rounds > labelRounds,
        rarityLogs,
      });
      ({ states, labels } = step);
      moved = Math.max(moved, step.moved);
      // The first round looks for wild records with the assumed variances, which they have not yet inflated.
      if (rounds > 1) ({ variances } = step);
    }
    const slope = settleNoise(design, states, noiseSlope);
    moved = Math.max(moved, Math.abs(slope - noiseSlope));
    noiseSlope = slope;
  } while (rounds < mostRounds && (moved > still || rounds < 3));
  return {
    ...states,
    effects,
    curve,
    variances,
    labels,
    informationScale,
    noiseSlope,
    yearly,
    rounds,
    stable: moved <= still,
  };
};

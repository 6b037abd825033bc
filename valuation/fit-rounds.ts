import { assumedCurve } from './assumed-curve.ts';
import { isotonic } from './isotonic.ts';
import { columnPrecisions, columns, curveCells } from './market-columns.ts';
import { poolEvidence, type Variances } from './pool-evidence.ts';
import { leftOutDeparture, robustWeight } from './robust-weight.ts';
import { type SharedEffects, sharedEffects } from './shared-effects.ts';
import type { AssumptionSet } from './types.ts';
import { finishStates, grades } from './words.ts';

const steps = grades.length;
const mostRounds = 25;
/** Steps of the variances and the robust weights between two fits of the shared effects. */
const innerSteps = 6;

export interface RoundsInput {
  assumptions: AssumptionSet;
  withTrend: boolean;
  /** Columns of each sale and last its log price less the assumed curve and rarity, centred. */
  rows: Float64Array;
  /** Finish state × 19 + grade step of each sale. */
  cells: Int32Array;
  weights: Float64Array;
  slots: Int32Array;
  slotCasting: Int32Array;
  castingSeries: Int32Array;
  seriesCount: number;
}

export interface RoundsResult {
  effects: SharedEffects;
  curve: Float64Array;
  variances: Variances;
  residuals: Float64Array;
  robust: Float64Array;
  departures: Float64Array;
  rounds: number;
  stable: boolean;
}

/** Fitted log price of each finish state and grade: the assumption plus the effects, made to rise by weighted isotonic regression. */
const curveOf = (estimate: Float64Array, assumed: Float64Array, evidence: Float64Array): Float64Array => {
  const curve = new Float64Array(assumed.length);
  for (let state = 0; state < finishStates.length; state++) {
    const raw: number[] = [];
    const weights: number[] = [];
    for (let step = 0; step < steps; step++) {
      const cell = state * steps + step;
      let log = assumed[cell]!;
      for (let a = 0; a < columns.count; a++) log += estimate[a]! * curveCells[cell]![a]!;
      raw.push(log);
      weights.push(1 + evidence[cell]!);
    }
    curve.set(isotonic(raw, weights), state * steps);
  }
  return curve;
};

const priorVariances = ({ prior }: AssumptionSet): Variances => ({
  within: prior.within ** 2,
  betweenVariations: prior.betweenVariations ** 2,
  betweenCastings: prior.betweenCastings ** 2,
  betweenSeries: prior.betweenSeries ** 2,
});

const meanSquare = (squares: Float64Array, precision: Float64Array, prior: number, strength: number) => {
  let sum = strength * prior;
  let count = strength;
  for (let i = 0; i < squares.length; i++) {
    if (precision[i] === 0) continue;
    sum += squares[i]!;
    count++;
  }
  return count > 0 ? sum / count : prior;
};

/**
 * Fits the shared effects (level, trend, rarities, finish states, grade curve), the variances of the pooling, and the weight of each
 * record against wildness, in turns until nothing moves. Variances are those of greatest likelihood by expectation–maximisation
 * (Dempster, Laird & Rubin 1977), with the assumption's standard deviations counting as `prior.strength` observations each.
 */
export const fitRounds = (input: RoundsInput): RoundsResult => {
  const { assumptions, rows, cells, weights, slots, slotCasting, castingSeries, seriesCount } = input;
  const { strength } = assumptions.prior;
  const count = cells.length;
  const width = columns.count + 1;
  const assumed = Float64Array.from(finishStates.flatMap(state => assumedCurve(assumptions, state)));
  const evidence = new Float64Array(assumed.length);
  for (let i = 0; i < count; i++) evidence[cells[i]!]! += weights[i]!;
  // Variances are judged with weights that keep the information of the sample: Σw/Σw² brings them there (Kish).
  const total = weights.reduce((sum, w) => sum + w, 0);
  const squares = weights.reduce((sum, w) => sum + w * w, 0);
  const normal = squares > 0 ? total / squares : 1;
  const prior = columnPrecisions(assumptions.prior, input.withTrend);
  const start = priorVariances(assumptions);
  let variances = start;
  const robust = new Float64Array(count).fill(1);
  const precision = new Float64Array(count);
  const residuals = new Float64Array(count);
  const departures = new Float64Array(count);
  const tree = { variation: slots, variationCasting: slotCasting, castingSeries, seriesCount };
  let effects: SharedEffects;
  let curve: Float64Array;
  let rounds = 0;
  let moved = Number.POSITIVE_INFINITY;
  do {
    rounds++;
    for (let i = 0; i < count; i++) precision[i] = (robust[i]! * weights[i]! * normal) / variances.within;
    effects = sharedEffects({ rows, width, precision, ...tree, prior }, variances);
    curve = curveOf(effects.estimate, assumed, evidence);
    for (let i = 0; i < count; i++) {
      const cell = cells[i]!;
      let fit = curve[cell]! - assumed[cell]!;
      // The curve's own columns are in the curve already; level, trend and rarities come before them.
      for (let a = 0; a < columns.firstOfCurve; a++) fit += effects.estimate[a]! * rows[i * width + a]!;
      residuals[i] = rows[i * width + columns.count]! - fit;
    }
    moved = 0;
    for (let inner = 0; inner < innerSteps; inner++) {
      for (let i = 0; i < count; i++) precision[i] = (robust[i]! * weights[i]! * normal) / variances.within;
      const pooled = poolEvidence({ values: residuals, precision, ...tree }, variances);
      let within = strength * start.within;
      let observations = strength;
      for (let i = 0; i < count; i++) {
        const r = residuals[i]! - pooled.variations.mean[slots[i]!]!;
        const fitVariance = pooled.variations.variance[slots[i]!]!;
        const w = weights[i]! * normal * robust[i]!;
        within += w * (r * r + fitVariance);
        observations += w;
        const t = leftOutDeparture(r, variances.within, variances.within / w, fitVariance);
        const weight = robustWeight(t);
        moved = Math.max(moved, Math.abs(weight - robust[i]!));
        departures[i] = t;
        robust[i] = weight;
      }
      within += variances.within * Math.min(effects.freedom, observations / 2);
      // The first round looks for wild records with the assumed variances, which they have not yet inflated.
      if (rounds === 1) continue;
      const next: Variances = {
        within: observations > 0 ? within / observations : start.within,
        betweenVariations: meanSquare(
          pooled.variations.square,
          pooled.variations.precision,
          start.betweenVariations,
          strength,
        ),
        betweenCastings: meanSquare(
          pooled.castings.square,
          pooled.castings.precision,
          start.betweenCastings,
          strength,
        ),
        betweenSeries: meanSquare(
          pooled.series.square,
          pooled.series.precision,
          start.betweenSeries,
          strength,
        ),
      };
      moved = Math.max(moved, Math.abs(Math.log(next.within / variances.within)));
      moved = Math.max(moved, Math.abs(Math.log(next.betweenVariations / variances.betweenVariations)));
      variances = next;
    }
  } while (rounds < mostRounds && (moved > 1e-4 || rounds < 3));
  return {
    effects,
    curve,
    variances,
    residuals,
    robust,
    departures,
    rounds,
    stable: moved <= 1e-4,
  };
};

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
  /** 1 where the sale has no grade, and stands at the assumption set's unknown grade. */
  ungraded: Uint8Array;
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
  /** Precision of each sale beside that of a graded one, 0…1. */
  clarity: Float64Array;
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

/** How far off the grade of an ungraded sale may be, as a standard deviation in half points. */
const unknownGradeSteps = 3;

/** Variance that an unknown grade adds at a cell: the square of what the curve changes over that distance. */
const unknownGradeVariance = (curve: Float64Array, cell: number): number => {
  const from = cell - (cell % steps);
  const down = Math.max(from, cell - unknownGradeSteps);
  const up = Math.min(from + steps - 1, cell + unknownGradeSteps);
  return (((curve[up]! - curve[down]!) * unknownGradeSteps) / (up - down)) ** 2;
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
  const { assumptions, rows, cells, weights, ungraded, slots, slotCasting, castingSeries, seriesCount } =
    input;
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
  const clarity = new Float64Array(count).fill(1);
  const setPrecision = () => {
    for (let i = 0; i < count; i++)
      precision[i] = (clarity[i]! * robust[i]! * weights[i]! * normal) / variances.within;
  };
  const tree = { variation: slots, variationCasting: slotCasting, castingSeries, seriesCount };
  let effects: SharedEffects;
  let curve: Float64Array;
  let rounds = 0;
  let moved = Number.POSITIVE_INFINITY;
  do {
    rounds++;
    setPrecision();
    effects = sharedEffects({ rows, width, precision, ...tree, prior }, variances);
    curve = curveOf(effects.estimate, assumed, evidence);
    for (let i = 0; i < count; i++) {
      const cell = cells[i]!;
      let fit = curve[cell]! - assumed[cell]!;
      // The curve's own columns are in the curve already; level, trend and rarities come before them.
      for (let a = 0; a < columns.firstOfCurve; a++) fit += effects.estimate[a]! * rows[i * width + a]!;
      residuals[i] = rows[i * width + columns.count]! - fit;
      if (ungraded[i]) clarity[i] = variances.within / (variances.within + unknownGradeVariance(curve, cell));
    }
    moved = 0;
    for (let inner = 0; inner < innerSteps; inner++) {
      setPrecision();
      const pooled = poolEvidence({ values: residuals, precision, ...tree }, variances);
      let within = strength * start.within;
      let observations = strength;
      for (let i = 0; i < count; i++) {
        const r = residuals[i]! - pooled.variations.mean[slots[i]!]!;
        const fitVariance = pooled.variations.variance[slots[i]!]!;
        const w = weights[i]! * normal * robust[i]!;
        const sale = variances.within / clarity[i]!;
        within += w * clarity[i]! * (r * r + fitVariance);
        observations += w;
        const t = leftOutDeparture(r, sale, sale / w, fitVariance);
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
    clarity,
    rounds,
    stable: moved <= 1e-4,
  };
};

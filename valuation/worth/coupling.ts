import { type FittedMarket, ownVariance } from '../market/fitted-market.ts';
import { columns } from '../market/market-columns.ts';
import { eightyPercent } from '../statistics/normal.ts';
import type { Subject } from '../types.ts';
import { finishStates, grades } from '../words.ts';
import { type Condition, gradeDoubt } from './car-worths.ts';
import { gradeView } from './grade-view.ts';
import { factorsAt, type SharedFactors } from './shared-factors.ts';
import { ladderOf, subjectPlace } from './subject-place.ts';
import { type Ladder, subjectCells } from './worth-ladder.ts';

const size = columns.count;
const stateOf = ({ state }: Condition) => finishStates.indexOf(state);

/**
 * Variance with which the fit knows the log factor from one condition to another: of grade curve and finish
 * factor alone, since the car's level is in both. 0 for the same condition.
 */
export const varianceApart = (fitted: FittedMarket, from: Condition, to: Condition): number => {
  if (from.state === to.state && from.step === to.step) return 0;
  const cells = subjectCells(fitted).get('common')!;
  const place = (one: Condition) => (stateOf(one) * grades.length + one.step) * size;
  const a = place(from);
  const b = place(to);
  let variance = 0;
  for (let k = 0; k < size; k++) variance += (cells[b + k]! - cells[a + k]!) ** 2;
  return variance;
};

/** Covariance of two estimates of one car, or of two cars where `same` is false. */
export const covarianceOf = (a: SharedFactors, b: SharedFactors, same: boolean): number => {
  let sum = 0;
  for (let k = 0; k < size; k++) sum += a.effects[k]! * b.effects[k]!;
  if (a.variation >= 0 && a.variation === b.variation) sum += a.ofVariation * b.ofVariation;
  if (a.casting === b.casting) sum += a.ofCasting * b.ofCasting;
  if (a.series === b.series) sum += a.ofSeries * b.ofSeries;
  return same ? sum + a.ofIdentity * b.ofIdentity : sum;
};

/** A ladder as its rungs are compared: what it holds, and what stands for all of them. */
interface LadderRungs {
  rests: NonNullable<Ladder['rests']>;
  cells: Float64Array;
  casting: number;
  /** Variance of the variation's own level. */
  own: number;
}

/** The same between two rungs of one ladder, from what it holds. */
const covarianceOfRungs = (
  fitted: FittedMarket,
  { rests, cells, casting, own }: LadderRungs,
  a: Condition,
  b: Condition,
): number => {
  const fromA = (stateOf(a) * grades.length + a.step) * size;
  const fromB = (stateOf(b) * grades.length + b.step) * size;
  const mixA = a.step * size;
  const mixB = b.step * size;
  const { mix } = rests;
  let sum = 0;
  for (let k = 0; k < size; k++)
    sum += (cells[fromA + k]! - mix[mixA + k]!) * (cells[fromB + k]! - mix[mixB + k]!);
  const viewA = gradeView(fitted, a.step);
  const viewB = gradeView(fitted, b.step);
  const open = rests.open[a.step]! * rests.open[b.step]!;
  return (
    sum +
    own * Math.sqrt(open) +
    open * viewA.castingFactor[casting]! * viewB.castingFactor[casting]! +
    open * viewA.seriesFactor[casting]! * viewB.seriesFactor[casting]!
  );
};

/** Covariance of the logs of the estimates of a car in two conditions. */
export type Coupling = (a: Condition, b: Condition) => number;

/**
 * How the estimates of one car in two conditions go together, by the fit's own posterior: they share its
 * level, and of the grade curve and the finish factors only what both rest on, so that what the records do
 * not tell of restored cars is in one of them alone. Between figures of the owner's own the covariance is
 * that of the figure itself.
 */
export const couplingOf = (fitted: FittedMarket, subject: Subject, own: boolean): Coupling => {
  if (own) {
    const { low, high } = subject.ownWorth!;
    const said = ((Math.log(high) - Math.log(low)) / 2 / eightyPercent) ** 2;
    return () => said;
  }
  const place = subjectPlace(fitted, subject)!;
  const ladder = ladderOf(fitted, place);
  const { rests } = ladder;
  const rungs: LadderRungs | null = rests && {
    rests,
    cells: subjectCells(fitted).get(rests.rarity)!,
    casting: place.casting,
    own: ownVariance(fitted, place.variation),
  };
  const varianceOf = (one: Condition): number => {
    if (!rests) return between(one, one);
    const rung = stateOf(one) * grades.length + one.step;
    let known = rests.variances.get(rung);
    if (known === undefined) {
      known = between(one, one);
      rests.variances.set(rung, known);
    }
    return known;
  };
  const between = (a: Condition, b: Condition) =>
    rungs
      ? covarianceOfRungs(fitted, rungs, a, b)
      : covarianceOf(
          factorsAt(fitted, place, stateOf(a), a.step),
          factorsAt(fitted, place, stateOf(b), b.step),
          true,
        );
  const shared = (one: Condition) => ladder.shared[stateOf(one) * grades.length + one.step]!;
  return (a, b) => {
    const doubt = a.gradeKnown || b.gradeKnown ? 0 : Math.sqrt(gradeDoubt(ladder, a) * gradeDoubt(ladder, b));
    if (a.state === b.state && a.step === b.step) return shared(a) * shared(b) + doubt;
    const product = varianceOf(a) * varianceOf(b);
    const correlation = product > 0 ? Math.min(1, between(a, b) / Math.sqrt(product)) : 1;
    // The ladder was made to rise with grade, which changes its deviations a little.
    return correlation * shared(a) * shared(b) + doubt;
  };
};

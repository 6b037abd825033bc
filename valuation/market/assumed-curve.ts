import { checkFinite } from '../statistics/check-input.ts';
import type { AssumptionSet } from '../types.ts';
import { type FinishState, grades } from '../words.ts';

/** How far off the grade of an ungraded car or sale may be, as a standard deviation in half points. */
export const unknownGradeSteps = 3;

/** Place of a grade among the nineteen of `grades`: C1 → 0, C1.5 → 1, … C10 → 18. */
export const gradeStep = (grade: number): number => {
  const step = Math.round((grade - 1) * 2);
  if (!(step >= 0 && step < grades.length) || grade * 2 !== Math.round(grade * 2))
    throw new RangeError(`${grade} is not a grade: 1 to 10 in halves`);
  return step;
};

/**
 * The assumption set's log price at each of the nineteen grades of a finish state, relative to C10 in
 * original finish: ln(multiplier of the grade) + ln(factor of the finish state), half grades midway in logs
 * between their neighbours. Throws RangeError unless there are ten multipliers above zero that never fall,
 * and the factor is above zero.
 */
export const assumedCurve = (assumptions: AssumptionSet, state: FinishState): number[] => {
  const multipliers = assumptions.gradeMultipliers[state];
  const factor = assumptions.finishFactors[state];
  checkFinite(factor, `finish factor of "${state}"`);
  if (factor <= 0) throw new RangeError(`finish factor of "${state}" must be above zero, not ${factor}`);
  if (multipliers?.length !== 10)
    throw new RangeError(`grade multipliers of "${state}" must be ten, C1 to C10`);
  multipliers.forEach((multiplier, i) => {
    checkFinite(multiplier, `grade multiplier of "${state}" at C${i + 1}`);
    if (multiplier <= 0)
      throw new RangeError(`grade multiplier of "${state}" at C${i + 1} must be above zero`);
    if (i > 0 && multiplier < multipliers[i - 1]!)
      throw new RangeError(`grade multipliers of "${state}" must not fall: C${i + 1} is below C${i}`);
  });
  const logs = multipliers.map(multiplier => Math.log(multiplier * factor));
  return grades.map((_, step) => (logs[Math.floor(step / 2)]! + logs[Math.ceil(step / 2)]!) / 2);
};

import { checkBetween, checkFinite } from './statistics/check-input.ts';
import type { AssumptionSet } from './types.ts';

/**
 * Throws RangeError, naming the figure, where an assumption set holds one that the fit cannot use: a spread
 * or strength below zero, a half-life or grade distance that is not above zero, a reliability or share
 * outside 0…1. Curves and factors are checked where they are used.
 */
export const checkAssumptions = (assumptions: AssumptionSet): void => {
  const { prior, decision, sourceReliability, halfLifeYears, gradeDistanceHalf } = assumptions;
  for (const [name, value] of Object.entries(prior)) {
    checkFinite(value, `prior.${name}`);
    if (value < 0) throw new RangeError(`prior.${name} must not be below zero, and is ${value}`);
  }
  for (const [name, value] of Object.entries({ halfLifeYears, gradeDistanceHalf })) {
    checkFinite(value, name);
    if (value <= 0) throw new RangeError(`${name} must be above zero, and is ${value}`);
  }
  for (const [source, value] of Object.entries(sourceReliability))
    checkBetween(value, 0, 1, `reliability of source "${source}"`);
  checkBetween(assumptions.widestEstimate ?? 8, 1, 1e6, 'widestEstimate');
  checkBetween(assumptions.beliefSales ?? 1, 0, 100, 'beliefSales');
  checkFinite(decision.leastGain, 'decision.leastGain');
  for (const name of ['leastProbability', 'sellingFees', 'worthCorrelation', 'donorShare'] as const)
    checkBetween(decision[name], 0, 1, `decision.${name}`);
};

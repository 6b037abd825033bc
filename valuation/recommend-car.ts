import { consideredOptions } from './decision-options.ts';
import type { FittedMarket } from './fitted-market.ts';
import { recommend, weigh } from './recommend.ts';
import type { Minor, Range, Subject, Valuation } from './types.ts';
import { valueCar } from './value-car.ts';
import type { Recommendation } from './words.ts';

/** What a list shows of a car's decision; each figure is the one that `decideCar` gives. */
export interface CarRecommendation {
  recommendation: Recommendation;
  /** Null where there is not enough evidence. */
  expectedGain: Minor | null;
  probability: number | null;
  /** The car's plan, or the standard plan, whether or not it is recommended; null where there is not enough evidence. */
  plan: { expectedGain: Minor; probability: number; guarded: boolean; cost: Range } | null;
}

/**
 * The recommendation alone, as `decideCar` gives it, without the ranges of gain, break-even, tornado and reasons, which take most of
 * its time: for lists of thousands of cars. Throws RangeError where `decideCar` does.
 */
export const recommendCar = (
  fitted: FittedMarket,
  subject: Subject,
  valuation: Valuation = valueCar(fitted, subject),
): CarRecommendation => {
  const considered = consideredOptions(fitted, subject, valuation);
  if (!considered)
    return { recommendation: 'not-enough-evidence', expectedGain: null, probability: null, plan: null };
  const { decision: floors } = fitted.assumptions;
  const weighed = considered.map(option => weigh(option, floors));
  const { recommended, best } = recommend(weighed);
  const shown = recommended.option === 'leave' ? best : recommended;
  const planned = considered.findIndex(({ option }) => option === (subject.plan?.kind ?? 'restore'));
  const plan = weighed[planned]!;
  return {
    recommendation: recommended.option,
    expectedGain: Math.round(shown.expectedGain),
    probability: shown.probability,
    plan: {
      expectedGain: Math.round(plan.expectedGain),
      probability: plan.probability,
      guarded: plan.guarded,
      cost: considered[planned]!.cost.range,
    },
  };
};

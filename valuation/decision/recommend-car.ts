import type { FittedMarket } from '../market/fitted-market.ts';
import type { Guard, Minor, Range, Subject, Valuation } from '../types.ts';
import type { Option, Recommendation } from '../words.ts';
import { valueCar } from '../worth/value-car.ts';
import { consideredOptions } from './decision-options.ts';
import { recommend, weigh } from './recommend.ts';

/** An option in short: what it is expected to bring over leaving, how likely it beats leaving, and its cost. */
export interface OptionInShort {
  option: Option;
  expectedGain: Minor;
  probability: number;
  /** It is not to be recommended, whatever it brings. */
  guarded: boolean;
  cost: Range;
}

/** What a list shows of a car's decision; each figure is the one that `decideCar` gives. */
export interface CarRecommendation {
  recommendation: Recommendation;
  /** Null where there is not enough evidence. */
  expectedGain: Minor | null;
  probability: number | null;
  /** The car's plan, or the standard plan, whether or not it is recommended; null where there is not enough evidence. */
  plan: OptionInShort | null;
  /** Every option but to leave it; none where there is not enough evidence. */
  options: OptionInShort[];
  /** What stands against the plan, overruled or not. */
  guards: Guard[];
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
    return {
      recommendation: 'not-enough-evidence',
      expectedGain: null,
      probability: null,
      plan: null,
      options: [],
      guards: [],
    };
  const { decision: floors } = fitted.assumptions;
  const weighed = considered.map(option => weigh(option, floors));
  const { recommended, best } = recommend(weighed);
  const shown = recommended.option === 'leave' ? best : recommended;
  const planned = considered.findIndex(({ option }) => option === (subject.plan?.kind ?? 'restore'));
  const options = weighed.map(({ option, expectedGain, probability, guarded }, i) => ({
    option,
    expectedGain: Math.round(expectedGain),
    probability,
    guarded,
    cost: considered[i]!.cost.range,
  }));
  return {
    recommendation: recommended.option,
    expectedGain: Math.round(shown.expectedGain),
    probability: shown.probability,
    plan: options[planned]!,
    options,
    guards: considered[planned]!.guards,
  };
};

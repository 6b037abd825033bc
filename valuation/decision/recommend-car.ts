import type { FittedMarket } from '../market/fitted-market.ts';
import type { AssumptionSet, Guard, Minor, Range, Subject, Valuation } from '../types.ts';
import type { Option, Recommendation } from '../words.ts';
import { valueCar } from '../worth/value-car.ts';
import { type ConsideredOption, consideredOptions } from './decision-options.ts';
import { standsAgainst } from './guards.ts';
import { chanceOfGain, expectedGain } from './weigh-option.ts';

/** The least gain and the least probability that the owner asks for. */
export type Floors = Pick<AssumptionSet['decision'], 'leastGain' | 'leastProbability'>;

/** An option against the owner's floors; its expected gain is not yet rounded. */
export interface OptionScore {
  option: Option;
  expectedGain: number;
  probability: number;
  /** A guard stands against it, or it is only compared. */
  guarded: boolean;
  /**
   * Passes the owner's floors: at least the least gain, at least the least probability, and above nothing.
   */
  passes: boolean;
}

/**
 * One option against the owner's floors: expected gain in minor units, its chance (0 … 1), whether it is
 * guarded, and whether it passes.
 */
export const scoreOption = (considered: ConsideredOption, floors: Floors): OptionScore => {
  const gain = expectedGain(considered);
  const probability = chanceOfGain(considered);
  return {
    option: considered.option,
    expectedGain: gain,
    probability,
    guarded: considered.note !== null || standsAgainst(considered.guards),
    passes: gain > 0 && gain >= floors.leastGain && probability >= floors.leastProbability,
  };
};

const leave: OptionScore = { option: 'leave', expectedGain: 0, probability: 0, guarded: false, passes: true };

/**
 * Recommended: of the options without a guard that pass the floors, the one with the highest expected gain,
 * else leave. Best: the same without the floors. Of equals the earlier counts.
 */
export const recommend = (
  scores: readonly OptionScore[],
): { recommended: OptionScore; best: OptionScore } => {
  let recommended = leave;
  let best = leave;
  for (const score of scores) {
    if (score.guarded) continue;
    if (score.expectedGain > best.expectedGain) best = score;
    if (score.passes && score.expectedGain > recommended.expectedGain) recommended = score;
  }
  return { recommended, best };
};

/** The options of a car as they are weighed, and what comes of it. */
export interface WeighedOptions {
  considered: ConsideredOption[];
  /** One for each of `considered`, in its order. */
  scores: OptionScore[];
  recommended: OptionScore;
  best: OptionScore;
  /**
   * Whose gain and probability are shown: the recommended option's, or the best one's where the
   * answer is leave.
   */
  shown: OptionScore;
  /** Where among `considered` the option of the plan, or of the standard plan, stands. */
  planned: number;
}

/** Weighs the options of a car against the owner's floors. Null where nothing can be valued. */
export const weighOptions = (
  fitted: FittedMarket,
  subject: Subject,
  valuation: Valuation,
): WeighedOptions | null => {
  const considered = consideredOptions(fitted, subject, valuation);
  if (!considered) return null;
  const scores = considered.map(option => scoreOption(option, fitted.assumptions.decision));
  const { recommended, best } = recommend(scores);
  const planned = considered.findIndex(({ option }) => option === (subject.plan?.kind ?? 'restore'));
  return {
    considered,
    scores,
    recommended,
    best,
    shown: recommended.option === 'leave' ? best : recommended,
    planned,
  };
};

/**
 * An option in short: what it is expected to bring over leaving, how likely it beats leaving, and its cost.
 */
export interface OptionSummary {
  option: Option;
  expectedGain: Minor;
  probability: number;
  /** It is not to be recommended, whatever it brings. */
  guarded: boolean;
  /** It passes the owner's floors of gain and probability. */
  passes: boolean;
  cost: Range;
  /** What it is expected to take of the owner's own hours, and of cash besides: the hours cost none of it. */
  hours: number;
  cash: Minor;
  /** Expected gain for each of those hours; null where it takes none. */
  gainPerHour: Minor | null;
}

/** Expected gain over leaving for each hour of one's own; null where there is none to share it by. */
export const gainPerHour = (expectedGain: number, hours: number): Minor | null =>
  hours > 0 ? Math.round(expectedGain / hours) : null;

/** The earlier name of `OptionSummary`. */
export type OptionInShort = OptionSummary;

/** What a list shows of a car's decision; each figure is the one that `decideCar` gives. */
export interface CarRecommendation {
  recommendation: Recommendation;
  /** Null where there is not enough evidence. */
  expectedGain: Minor | null;
  probability: number | null;
  /**
   * The car's plan, or the standard plan, whether or not it is recommended; null where there is
   * not enough evidence.
   */
  plan: OptionSummary | null;
  /** Every option but to leave it; none where there is not enough evidence. */
  options: OptionSummary[];
  /** What stands against the plan, overruled or not. */
  guards: Guard[];
}

/**
 * The recommendation alone, as `decideCar` gives it, without the ranges of gain, break-even,
 * tornado and reasons, which take most of its time: for lists of thousands of cars. Throws
 * RangeError where `decideCar` does.
 */
export const recommendCar = (
  fitted: FittedMarket,
  subject: Subject,
  valuation: Valuation = valueCar(fitted, subject),
): CarRecommendation => {
  const weighed = weighOptions(fitted, subject, valuation);
  if (!weighed)
    return {
      recommendation: 'not-enough-evidence',
      expectedGain: null,
      probability: null,
      plan: null,
      options: [],
      guards: [],
    };
  const { considered, scores, recommended, shown, planned } = weighed;
  const options = scores.map(({ option, expectedGain: gain, probability, guarded, passes }, i) => ({
    option,
    expectedGain: Math.round(gain),
    probability,
    guarded,
    passes,
    cost: considered[i]!.cost.range,
    hours: considered[i]!.hours,
    cash: Math.round(considered[i]!.cash),
    gainPerHour: gainPerHour(gain, considered[i]!.hours),
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

import type { AssumptionSet } from '../types.ts';
import type { Option } from '../words.ts';
import type { Considered } from './decision-options.ts';
import { standsAgainst } from './guards.ts';
import { chanceOfGain, expectedGain } from './weigh-option.ts';

export type Floors = Pick<AssumptionSet['decision'], 'leastGain' | 'leastProbability'>;

export interface Weighed {
  option: Option;
  expectedGain: number;
  probability: number;
  /** A guard stands against it, or it is only compared. */
  guarded: boolean;
  /** Passes the owner's floors: at least the least gain, at least the least probability, and above nothing. */
  passes: boolean;
}

/**
 * One option against the owner's floors: expected gain in minor units, its chance (0 … 1), whether a guard stands
 * against it, and whether it passes.
 */
export const weigh = (considered: Considered, floors: Floors): Weighed => {
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

const leave: Weighed = { option: 'leave', expectedGain: 0, probability: 0, guarded: false, passes: true };

/**
 * Recommended: of the options without a guard that pass the floors, the one with the highest expected gain, else leave.
 * Best: the same without the floors. Of equals the earlier counts.
 */
export const recommend = (weighed: readonly Weighed[]): { recommended: Weighed; best: Weighed } => {
  let recommended = leave;
  let best = leave;
  for (const option of weighed) {
    if (option.guarded) continue;
    if (option.expectedGain > best.expectedGain) best = option;
    if (option.passes && option.expectedGain > recommended.expectedGain) recommended = option;
  }
  return { recommended, best };
};

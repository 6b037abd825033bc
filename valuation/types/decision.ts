import type { DeviationKind, Grade, Option, Rarity, Recommendation } from '../words.ts';
import type { Minor, Range } from './units.ts';
import type { Evidence, Help } from './worth.ts';

export interface OptionResult {
  option: Option;
  cost: Range;
  worth: Range;
  expectedGain: Minor;
  gain: Range;
  /** Probability that it beats leaving. */
  probability: number;
  /** Guards against it; empty when none. */
  guards: Guard[];
  /** Expected hours of one's own, and the expected gain for each; null where it takes none. */
  hours: number;
  /** Expected cash besides: the hours cost none of it. */
  cash: Minor;
  gainPerHour: Minor | null;
  /**
   * Set where it is shown for comparison and never recommended: customising is, unless the owner planned it.
   */
  note?: 'only-compared';
}
interface GuardOverruled {
  overruled: boolean;
  /** The owner's words for overruling it; empty where it is not overruled. */
  reason: string;
}

/**
 * An original finish at or above the keep-grade. `finish` is its grade, null where it has not been graded.
 */
export interface KeepGradeGuard extends GuardOverruled {
  kind: 'keep-grade';
  finish: Grade | null;
  keepGrade: Grade;
}

/**
 * A rarity that the assumption set keeps: the variation's, or those among the variations that the car may be.
 */
export interface RarityGuard extends GuardOverruled {
  kind: 'rarity';
  rarities: Rarity[];
  /** The variation is known. */
  identified: boolean;
}

/** What stands against painting a car. */
export type Guard = KeepGradeGuard | RarityGuard;

/** What the gain of a plan depends on. */
export type TornadoInput = 'worth-afterwards' | 'worth-as-found' | 'cost' | 'spoil-chance' | 'selling-costs';

/** A tornado bar: the gain when one input goes from its low to its high while the others stay. */
export interface TornadoBar {
  input: TornadoInput;
  low: Minor;
  high: Minor;
  flips: boolean;
}

/** Why an option is recommended, or none is. Amounts in minor units of the reporting currency. */
export type Reason =
  | { kind: 'not-enough-evidence' }
  | { kind: 'help'; help: Help }
  | {
      kind: 'gain';
      option: Option;
      expectedGain: Minor;
      cost: Range;
      /** Selling costs are taken off. */
      afterFees: boolean;
      probability: number;
    }
  | { kind: 'guard'; guard: Guard }
  | { kind: 'nothing-pays' }
  | { kind: 'under-least-gain'; leastGain: Minor }
  | { kind: 'under-least-probability'; leastProbability: number }
  | { kind: 'break-even'; option: 'restore' | 'customise'; recommended: boolean; worth: Minor; cost: Minor }
  | { kind: 'standard-plan' }
  | { kind: 'plan-from-car' }
  | { kind: 'deviations'; deviations: DeviationKind[] }
  | { kind: 'evidence'; evidence: Evidence }
  | { kind: 'own-figure' }
  /** Not one sale of a car in the state that the plan leads to is known, of any casting. */
  | { kind: 'no-sale-of-state'; state: 'restored' | 'customised' };

/**
 * What a recommendation turns on, in one fact: a guard, a floor, the next best option, or what would help.
 */
export type Turning =
  | { kind: 'help'; help: Help | null }
  | { kind: 'guards'; guards: Guard[] }
  | { kind: 'next-best'; option: Option; expectedGain: Minor }
  | { kind: 'no-other' }
  | { kind: 'nothing-possible' }
  | { kind: 'nothing-pays'; nearest: Option; expectedGain: Minor }
  | { kind: 'under-least-gain'; option: Option; expectedGain: Minor; leastGain: Minor }
  | {
      kind: 'under-least-probability';
      option: Option;
      expectedGain: Minor;
      probability: number;
      leastProbability: number;
    };
export interface Decision {
  id: number;
  recommendation: Recommendation;
  /**
   * Of the recommended option (0 for leave), or of the best option considered when the answer is
   * leave: see `best`.
   */
  expectedGain: Minor;
  probability: number;
  cost: Range;
  options: OptionResult[];
  /**
   * The option with the highest expected gain among those not guarded nor only compared, whether or not it
   * passes the floors.
   */
  best: Option;
  /** The weightiest first. */
  reasons: Reason[];
  /**
   * Restored worth above which, and cost below which, restoring pays; null where no
   * restoration was considered.
   */
  breakEven: { restoredWorth: Minor; cost: Minor } | null;
  tornado: TornadoBar[];
}

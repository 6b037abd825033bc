/** What the procedures answer about what to do with cars. */
import type {
  ChosenSeason,
  Currency,
  Decision,
  Guard,
  Minor,
  OptionSummary,
  Range,
  Turning,
} from '../../../valuation/index.ts';
import type { BidFacts } from '../../../valuation/wording/bid-text.ts';
import type { WorkKind } from '../../../valuation/words.ts';
import type { CarRow } from './cars.ts';

export type { NamedLookUp } from '../../../valuation/wording/look-up-text.ts';

export interface DecideRow {
  car: CarRow;
  decision: Decision;
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
}

/**
 * One of the things that can be done with a car: what it gains over leaving it, and what it takes of the
 * owner.
 */
export interface SeasonOffer {
  option: WorkKind;
  gain: Minor;
  hours: number;
  cash: Minor;
  /** Scarce parts by name. */
  parts: Record<string, number>;
  /** It passes the owner's floors. */
  passes: boolean;
  /** A guard stands against it. */
  guarded: boolean;
}

/** A car with its decision in short; the whole is in `cars.get`. */
export interface DecisionSummary {
  car: CarRow;
  /**
   * The option recommended; of a car to leave the one that comes nearest to paying. Null
   * without enough evidence.
   */
  shown: OptionSummary | null;
  /**
   * What its plan, or the standard plan, stands for, and whether a guard is against it. Null
   * without enough evidence.
   */
  plan: (OptionSummary & { guards: Guard[] }) | null;
  /** All that can be done with it in a season. */
  offers: SeasonOffer[];
  /** What the recommendation turns on, for one line. */
  turnsOn: Turning;
}

export interface DecideOverview {
  currency: Currency;
  /** The owner's floors: below either, nothing is recommended. */
  leastGain: Minor;
  leastProbability: number;
  cars: DecisionSummary[];
}

/** What to do this season, of all that can be done with each car. Amounts in the collection's currency. */
export interface SeasonChoice extends ChosenSeason {
  gain: Minor;
  /** What it is expected to gain in all, and the 80 % range of that, with what the cars share. */
  range: Range;
  /** Cars that must be in, by something that is advised against. */
  against: number[];
}

export interface BidView extends BidFacts {
  expectedWorth: Range;
}

/** How many cars pay for work at each value of an hour, in minor units. */
export interface ValueOfAnHour {
  currency: Currency;
  rates: { rate: Minor; cars: number }[];
}

/** What the procedures answer about what to do with cars. */
import type {
  ChosenSeason,
  Currency,
  Decision,
  Guard,
  Minor,
  Option,
  OptionSummary,
  Range,
  Turning,
} from '../../../valuation/index.ts';
import type { BidFacts } from '../../../valuation/wording/values/bid-text.ts';
import type { Recommendation, WorkKind } from '../../../valuation/words.ts';
import type { CarRow } from './cars.ts';
import type { WorkingOut } from './windows.ts';

export type { NamedLookUp } from '../../../valuation/wording/values/look-up-text.ts';

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

/** Of a car what a list of decisions says. */
export interface DecideCar
  extends Pick<
    CarRow,
    | 'id'
    | 'inventoryNumber'
    | 'casting'
    | 'releaseName'
    | 'variation'
    | 'swatch'
    | 'wornColour'
    | 'grade'
    | 'finishState'
    | 'photo'
    | 'worths'
    | 'recommendation'
    | 'decided'
  > {
  features: { colour: string; basePaint: string };
  asWritten: { casting?: string };
}

/** A car with its decision in short; the whole is in `cars.get`. */
export interface DecisionSummary {
  car: DecideCar;
  /**
   * The option recommended; of a car to leave the one that comes nearest to paying. Null
   * without enough evidence.
   */
  shown: OptionSummary | null;
  /**
   * What its plan, or the standard plan, stands for, whether it is its owner's own, and which guards are
   * against it. Null without enough evidence.
   */
  plan: { option: Option; own: boolean; guards: Guard[] } | null;
  /** All that can be done with it in a season. */
  offers: SeasonOffer[];
  /** What the recommendation turns on, for one line. */
  turnsOn: Turning;
  /** It has a job on the bench that is not over, so that the best set leaves it out unless it is required. */
  onBench: boolean;
}

/** What the cars of a filter come to. */
export interface DecideFacts {
  /** Where all is by the values of before, how far the new ones are. */
  workingOut: WorkingOut | null;
  currency: Currency;
  /** The owner's floors: below either, nothing is recommended. */
  leastGain: Minor;
  leastProbability: number;
  /** The cars that may be worked on, and those of them of which there is not enough evidence. */
  cars: number;
  lacking: number;
  /** How many the filter shows. */
  listed: number;
  /** How many each recommendation would show with the rest of the filter holding. */
  recommended: { value: Recommendation; cars: number }[];
  /** The lots that have such cars, by their names. */
  lots: { id: number; name: string }[];
  /** Between what amounts the values of those shown lie; null where none is known. */
  values: { low: Minor; high: Minor } | null;
  /** The scarce parts that anything takes that can be done with any of the cars. */
  parts: string[];
  /** How many of those shown the best set may take of its own accord. */
  offered: number;
}

/**
 * The cars of a filter by gain and probability, as columns of equal length. Of many cars one stands for those
 * that lie close about it and have the same recommendation.
 */
export interface DecidePoints {
  ids: number[];
  gains: Minor[];
  /** To a thousandth. */
  probabilities: number[];
  costs: Minor[];
  /** Places among `recommendations`. */
  recommendations: number[];
  /** For how many cars each stands, itself among them. */
  cars: number[];
  /** For so many they stand together. */
  weighed: number;
  /** So many are shown and cannot be weighed. */
  lacking: number;
  /** What all of them cost at most. */
  highestCost: Minor;
}

/** What a range of the list holds. */
export interface ChosenDecisions {
  cars: number;
  /** For how many of them something is recommended. */
  advised: number;
}

/** A car that would gain by something and is not in the season. */
export interface LeftOut {
  weighed: DecisionSummary;
  /** The best that could be done with it. */
  offer: SeasonOffer;
  why: 'guarded' | 'under the floors' | 'never' | 'on the bench' | 'no room';
}

/** How many there are, and those that would gain most. */
export interface LeftOutCars {
  cars: number;
  most: LeftOut[];
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

/** What the procedures answer about what to do with cars. */
import type { Currency, Decision, Minor, Option, Range } from '../../../valuation/index.ts';
import type { CarRow } from './cars.ts';

export interface DecideRow {
  car: CarRow;
  decision: Decision;
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
}

/** An option of a car as lists show it. */
export interface WeighedOption {
  option: Option;
  /** Over leaving. */
  expectedGain: Minor;
  probability: number;
  cost: Range;
}

/** A car with its decision in short; the whole is in `cars.get`. */
export interface WeighedCar {
  car: CarRow;
  /** The option recommended; of a car to leave the one that comes nearest to paying. Null without enough evidence. */
  shown: WeighedOption | null;
  /** What its plan, or the standard plan, stands for, and whether a guard is against it. Null without enough evidence. */
  plan: (WeighedOption & { guarded: boolean; guards: { kind: string; sentence: string }[] }) | null;
  /** What the plan takes of the owner. */
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
  /** What the recommendation turns on, in one line. */
  why: string;
}

export interface DecideOverview {
  currency: Currency;
  /** The owner's floors: below either, nothing is recommended. */
  leastGain: Minor;
  leastProbability: number;
  cars: WeighedCar[];
}

export interface Portfolio {
  /** Ids of cars in the order in which to take them. */
  chosen: number[];
  gain: Minor;
  used: { hours: number; cash: Minor; parts: Record<string, number> };
  /** Gain that one more hour, one more 10 of cash, or one more part would add. */
  worthOfOneMore: { hours: Minor | null; cash: Minor | null; parts: Record<string, Minor> };
}

export interface BidView {
  bid: Minor;
  total: Minor;
  expectedWorth: Range;
  probability: number;
  sentence: string;
}

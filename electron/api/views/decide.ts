/** What the procedures answer about what to do with cars. */
import type { Decision, Minor, Range } from '../../../valuation/index.ts';
import type { CarRow } from './cars.ts';

export interface DecideRow {
  car: CarRow;
  decision: Decision;
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
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

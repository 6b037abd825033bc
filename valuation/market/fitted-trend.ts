import type { AssumptionSet, IsoDate, Market } from '../types.ts';
import { fitMarket } from './fit-market.ts';

/** What adjusting for date by the records' own trend would do, for the owner to take or leave. */
export interface OfferedTrend {
  /** Fitted factor of price per year, such as 1.03, and the years that the records span. */
  perYear: number;
  years: number;
  records: number;
  /** How far the typical record lies from what the others foretell, as a factor less 1: without and with the trend. */
  typicalError: { without: number; with: number };
}

/**
 * The trend that can be offered in place of the assumption set's index; null where there are too few records (forty over three years are
 * needed). Fits the market twice. Throws RangeError as `fitMarket` does.
 */
export const fittedTrend = (market: Market, assumptions: AssumptionSet, on: IsoDate): OfferedTrend | null => {
  const { trend, leftOut, recordsUsed } = fitMarket(market, { ...assumptions, index: 'trend' }, on);
  if (!trend) return null;
  const without = fitMarket(market, { ...assumptions, index: 'none' }, on).leftOut.typicalError!;
  return { ...trend, records: recordsUsed, typicalError: { without, with: leftOut.typicalError! } };
};

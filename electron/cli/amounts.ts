import { minorToDecimal } from '../../valuation/money.ts';
import type { Range } from '../../valuation/types.ts';

export interface DecimalRange {
  low: string;
  mid: string;
  high: string;
}

/** A range as decimal strings, the form in which amounts leave the program; null stays null. */
export const decimalRange = <R extends Range | null>(
  range: R,
  currency: string,
): R extends null ? DecimalRange | null : DecimalRange => {
  type Answer = R extends null ? DecimalRange | null : DecimalRange;
  if (range === null) return null as Answer;
  const { low, mid, high } = range;
  return {
    low: minorToDecimal(low, currency),
    mid: minorToDecimal(mid, currency),
    high: minorToDecimal(high, currency),
  } as Answer;
};

import type { Currency, Range } from '../../../valuation/types.ts';
import { ownRestText } from '../../../valuation/wording/values/evidence-text.ts';
import { worthText } from '../format.ts';
import { isUnknown, type StripWorths } from './strip-worths.ts';

/** A range in words: "40 to 90, middle 60". */
export const describeRange = ({ low, mid, high }: Range, currency: Currency): string =>
  `${worthText(low, currency)} to ${worthText(high, currency)}, middle ${worthText(mid, currency)}`;

/** The strip in words, for those who hear it instead of seeing it. */
export const describeWorths = (worths: StripWorths, currency: Currency): string => {
  if (isUnknown(worths)) return 'Not enough evidence for any value.';
  const { asFound, restored, originalFinish } = worths;
  const found = asFound ? describeRange(asFound, currency) : 'not enough evidence';
  const net = restored
    ? `${describeRange(restored, currency)}, up to ${worthText(restored.gross, currency)} before cost`
    : 'not enough evidence';
  const factory = originalFinish
    ? `${describeRange(originalFinish, currency)}${originalFinish.attainable ? '' : ', no longer attainable'}`
    : 'not enough evidence';
  return `Value in ${currency}. As found: ${found}. Restored, net of cost: ${net}. Original finish: ${factory}.${worths.restsOn ? ` It ${ownRestText[worths.restsOn].full}.` : ''}`;
};

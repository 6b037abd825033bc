import type { Minor } from '../../types.ts';
import { dialect } from '../dialect.ts';
import { counted, moneyText, percentText, type Reader } from '../reader.ts';

/**
 * The highest bid for some cars, and what it rests on. Amounts in minor units of the reporting
 * currency; shares 0…1.
 */
export interface BidFacts {
  /** 0 where no bid leaves the margin. */
  bid: Minor;
  /** The bid with the house's premium, tax and carriage. */
  total: Minor;
  /** The share of the proceeds that is wanted, and the chance that it is left. */
  margin: number;
  probability: number;
  /** Selling costs as a share of proceeds. */
  fees: number;
  /** Cars without a value: they count as nothing. */
  withoutWorth: number;
}

/** How much to bid, in a few sentences. */
export const bidText = (facts: BidFacts, reader: Reader): string => {
  const { bid, total, margin, probability, fees, withoutWorth } = facts;
  const money = (minor: Minor) => `${moneyText(minor, reader)} ${reader.currency}`;
  const left =
    withoutWorth === 0
      ? ''
      : ` ${counted(withoutWorth, 'car has no value and counts', 'cars have no value and count')} as nothing.`;
  return bid === 0
    ? `Do not bid: even if the cars cost nothing, ${dialect(reader.locale).carriage} and selling costs leave less than ${percentText(margin)} with the confidence that you want.${left}`
    : `Bid ${money(bid)} at most. That is ${money(total)} all in, and ${percentText(margin)} of what the cars bring is left over with a probability of ${percentText(probability)}, after selling costs of ${percentText(fees)}.${left}`;
};

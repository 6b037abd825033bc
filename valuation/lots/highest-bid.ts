import { checkBetween, checkFinite } from '../statistics/check-input.ts';
import type { Minor, Range, Worth } from '../types.ts';
import { costsAtBid } from './costs-at-bid.ts';
import { lotWorth, rangeOfSum } from './lot-worth.ts';

export interface BidWish {
  /** Worths of the lot's cars as found; cars of unknown worth are left out and count as nothing. */
  worths: readonly Worth[];
  /** Share of the bid that the house adds, and share of bid and premium that is tax. */
  premiumRate: number;
  taxRate: number;
  /** Minor units. */
  carriage: Minor;
  /** Share of what the cars bring that is to be left over after everything. */
  margin: number;
  /** How sure the margin must be, 0…1. */
  probability: number;
  /** Share of proceeds lost in selling again. */
  fees?: number;
  /**
   * Correlation between the logs of the worths of two cars of the lot: `sharedCorrelation` takes it from the
   * fit; 0.2 where it is not given.
   */
  correlation?: number;
}

export interface Bid {
  bid: Minor;
  /** What the lot costs at that bid, all in. */
  total: Minor;
  /** Of the cars together: the mean of the sum, and its 80 % range. */
  expectedWorth: Range;
  /** Probability that the margin is met at that bid. */
  probability: number;
}

/**
 * The highest bid at which the wanted margin is met with the wanted probability: with S the sum of the
 * worths, total = bid × (1 + premium) × (1 + tax) + carriage, and S × (1 − fees) × (1 − margin) ≥ total must
 * hold with that probability, so bid = (S₁₋ₚ × (1 − fees) × (1 − margin) − carriage) / ((1 + premium)(1 +
 * tax)), rounded down; 0 where even that is too much. Premium and tax are each rounded up to the minor unit.
 *
 * Throws RangeError on an empty lot, a probability outside 0.001…0.999, rates below zero, or a margin or
 * fees of 1 and more.
 */
export const highestBid = (wish: BidWish): Bid => {
  const { worths, premiumRate, taxRate, carriage, margin, probability, fees = 0, correlation = 0.2 } = wish;
  checkBetween(premiumRate, 0, 10, 'premiumRate');
  checkBetween(taxRate, 0, 10, 'taxRate');
  checkFinite(carriage, 'carriage');
  if (carriage < 0) throw new RangeError(`carriage must not be below zero, and is ${carriage}`);
  checkBetween(margin, 0, 0.999, 'margin');
  checkBetween(fees, 0, 0.999, 'fees');
  checkBetween(probability, 0.001, 0.999, 'probability');
  const lot = lotWorth(worths, correlation);
  const keptShare = (1 - fees) * (1 - margin);
  const totalOf = (bid: Minor) => {
    const { premium, tax } = costsAtBid(bid, { premiumRate, taxRate });
    return bid + premium + tax + carriage;
  };
  const affordable = lot.quantile(1 - probability) * keptShare;
  let bid = Math.max(0, Math.floor((affordable - carriage) / ((1 + premiumRate) * (1 + taxRate))));
  while (bid > 0 && totalOf(bid) > affordable) bid--;
  const total = totalOf(bid);
  return { bid, total, expectedWorth: rangeOfSum(lot), probability: 1 - lot.cdf(total / keptShare) };
};

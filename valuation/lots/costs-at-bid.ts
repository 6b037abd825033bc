import type { Minor } from '../types.ts';

/**
 * What comes on top of a bid, in its minor units: the house's premium as a share of the bid, and tax as a share of
 * both. Each is rounded up to the minor unit.
 */
export const costsAtBid = (
  bid: Minor,
  { premiumRate, taxRate }: { premiumRate: number; taxRate: number },
): { premium: Minor; tax: Minor } => {
  // What a share such as 0.07 adds in floating point is no minor unit.
  const shareOf = (minor: Minor, rate: number) => Math.max(0, Math.ceil(minor * rate - 1e-9));
  const premium = shareOf(bid, premiumRate);
  return { premium, tax: shareOf(bid + premium, taxRate) };
};

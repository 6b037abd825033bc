import { checkWeights } from '../statistics/check-input.ts';
import type { Minor } from '../types.ts';

/**
 * A number as digits × 10^exponent, exactly as it prints: 0.3 is three tenths, not the
 * nearest binary fraction.
 */
const decimalParts = (value: number): { digits: bigint; exponent: number } => {
  const [mantissa = '0', exponent = '0'] = String(value).split('e');
  const [whole = '0', fraction = ''] = mantissa.split('.');
  return { digits: BigInt(whole + fraction), exponent: Number(exponent) - fraction.length };
};

/** Whole numbers in the same proportions as the weights. */
const wholeWeights = (weights: readonly number[]): bigint[] => {
  const parts = weights.map(decimalParts);
  const least = parts.reduce((low, { digits, exponent }) => (digits ? Math.min(low, exponent) : low), 0);
  return parts.map(({ digits, exponent }) => (digits ? digits * 10n ** BigInt(exponent - least) : 0n));
};

/**
 * Shares of a price by weight, in whole minor units, by the method of the largest remainder: each share
 * is its quota rounded down, and the units left over go one each to the largest remainders, the earlier
 * of equals first.
 *
 * The shares sum exactly to `totalMinor`, each within one unit of its quota; a weight of zero gets nothing. A
 * negative total (a refund) is shared as the positive one is, with the sign turned. Not monotone: 10 by 6:6:2
 * is 4, 4, 2 but 11 is 5, 5, 1 (the Alabama paradox), so a share can fall when the total rises.
 *
 * Throws RangeError when the total is no whole number within 2^53, and when weights are empty, negative, not
 * finite or all zero.
 * Source: Hamilton's method of apportionment (1792); Balinski & Young, Fair Representation (1982).
 */
export const sharePrice = (totalMinor: Minor, weights: readonly number[]): Minor[] => {
  if (!Number.isSafeInteger(totalMinor))
    throw new RangeError(`totalMinor must be a whole number of minor units, not ${String(totalMinor)}`);
  checkWeights(weights, weights?.length, 'weights');
  const whole = wholeWeights(weights);
  const sum = whole.reduce((a, b) => a + b, 0n);
  const total = BigInt(Math.abs(totalMinor));
  const shares = whole.map(weight => (total * weight) / sum);
  const remainders = whole.map(weight => (total * weight) % sum);
  const left = Number(total - shares.reduce((a, b) => a + b, 0n));
  const order = remainders.map((_, i) => i);
  order.sort(
    (a, b) => Number(remainders[b]! > remainders[a]!) - Number(remainders[b]! < remainders[a]!) || a - b,
  );
  for (const i of order.slice(0, left)) shares[i]! += 1n;
  return shares.map(share => (totalMinor < 0 && share > 0n ? -Number(share) : Number(share)));
};

import { checkFinite } from '../statistics/check-input.ts';
import type { Minor } from '../types.ts';
import { sharePrice } from './share-price.ts';

export interface LotShareWish {
  id: number;
  /** Relative worth; null where nothing is known: it then weighs as much as the others do on average. */
  weight: number | null;
  /** A share set by hand, which stays; null where it is to be shared. */
  fixed: Minor | null;
}

/**
 * Whether shares fixed by hand can stand beside the total, in minor units: together no more than it, and all
 * of it where none is left to be shared (null). The sum is theirs.
 */
export const weighFixedShares = (
  totalMinor: Minor,
  fixed: readonly (Minor | null)[],
): { sum: Minor; problem: 'too much' | 'not all of it' | null } => {
  const sum = fixed.reduce<Minor>((all, share) => all + (share ?? 0), 0);
  if (sum > totalMinor) return { sum, problem: 'too much' };
  return { sum, problem: sum !== totalMinor && !fixed.includes(null) ? 'not all of it' : null };
};

/**
 * Shares the price of a lot over its cars: shares fixed by hand stay, the rest is shared by relative worth to
 * the minor unit, by the largest remainder, and all sum to the total exactly. Where no weight is above zero
 * the rest is shared equally.
 *
 * Throws RangeError on an empty lot, a total below zero, a fixed share below zero, fixed shares that come to
 * more than the total, and when every share is fixed and they do not come to the total.
 */
export const shareLot = ({
  totalMinor,
  cars,
}: {
  totalMinor: Minor;
  cars: readonly LotShareWish[];
}): { shares: { id: number; minor: Minor; fixed: boolean }[] } => {
  if (cars.length === 0) throw new RangeError('cars must not be empty');
  if (!Number.isSafeInteger(totalMinor) || totalMinor < 0)
    throw new RangeError(`totalMinor must be a whole number, not below zero, not ${totalMinor}`);
  for (const { id, weight, fixed } of cars) {
    if (weight !== null) checkFinite(weight, `weight of car ${id}`);
    if (weight !== null && weight < 0) throw new RangeError(`weight of car ${id} must not be below zero`);
    if (fixed === null) continue;
    if (!Number.isSafeInteger(fixed) || fixed < 0)
      throw new RangeError(`fixed share of car ${id} must be a whole number, not below zero, not ${fixed}`);
  }
  const { sum: fixedSum, problem } = weighFixedShares(
    totalMinor,
    cars.map(({ fixed }) => fixed),
  );
  if (problem === 'too much')
    throw new RangeError(
      `the shares fixed by hand come to ${fixedSum}, more than the lot cost (${totalMinor})`,
    );
  if (problem === 'not all of it')
    throw new RangeError(
      `every share is fixed, and together they come to ${fixedSum}, not to what the lot cost (${totalMinor})`,
    );
  const open = cars.filter(({ fixed }) => fixed === null);
  const known = open.map(({ weight }) => weight).filter(weight => weight !== null);
  const sum = known.reduce((a, b) => a + b, 0);
  const mean = known.length > 0 ? sum / known.length : 1;
  const weights = open.map(({ weight }) => (sum > 0 ? (weight ?? mean) : 1));
  const shares = open.length > 0 ? sharePrice(totalMinor - fixedSum, weights) : [];
  const shared = new Map(open.map((car, i) => [car, shares[i]!]));
  return {
    shares: cars.map(car => ({
      id: car.id,
      minor: car.fixed ?? shared.get(car)!,
      fixed: car.fixed !== null,
    })),
  };
};

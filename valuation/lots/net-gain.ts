import type { Minor } from '../types.ts';

const checkAmount = (value: Minor, name: string): void => {
  if (!Number.isSafeInteger(value) || value < 0)
    throw new RangeError(
      `${name} must be a whole number of minor units, not negative, and is ${String(value)}`,
    );
};

/**
 * What an object has cost its owner: the price paid and what was spent on improving it, in minor units.
 * Throws RangeError unless both are whole and not negative. Source: 26 CFR 1.1016-2.
 */
export const adjustedBasis = ({ cost, improvements }: { cost: Minor; improvements: Minor }): Minor => {
  checkAmount(cost, 'cost');
  checkAmount(improvements, 'improvements');
  return cost + improvements;
};

/**
 * Gain (below zero: loss) on letting an object go, in minor units: proceeds − fees − adjusted basis.
 * Throws RangeError unless all four are whole and not negative. Source: 26 CFR 1.1016-2, 1.1001-1.
 */
export const netGain = ({
  proceeds,
  fees,
  cost,
  improvements,
}: {
  proceeds: Minor;
  fees: Minor;
  cost: Minor;
  improvements: Minor;
}): Minor => {
  checkAmount(proceeds, 'proceeds');
  checkAmount(fees, 'fees');
  return proceeds - fees - adjustedBasis({ cost, improvements });
};

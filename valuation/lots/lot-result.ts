import type { Minor } from '../types.ts';
import { netGain } from './net-gain.ts';

export interface LotCar {
  /** The car's share of the lot's price, and what was spent on it since. */
  cost: Minor;
  improvements: Minor;
  sold: { proceeds: Minor; fees: Minor } | null;
  /** Worth as found today; null where unknown. */
  worth: Minor | null;
}

export interface LotResult {
  cost: Minor;
  improvements: Minor;
  proceeds: Minor;
  fees: Minor;
  /** Proceeds − fees − cost and improvements of the cars sold. */
  gainRealised: Minor;
  /**
   * Of the cars still there: what they cost with improvements, their worth where known, and how many are
   * of unknown worth.
   */
  remainingCost: Minor;
  remainingWorth: Minor;
  unvalued: number;
  /**
   * What was realised, and what selling the rest at its worth would add: proceeds − fees + remaining
   * worth − all cost.
   */
  gainInAll: Minor;
}

/**
 * What a lot has come to, in minor units of one currency. Gain of each sold car: `netGain`. Throws RangeError
 * on amounts that are not whole or are below zero.
 */
export const lotResult = (cars: readonly LotCar[]): LotResult => {
  const result: LotResult = {
    cost: 0,
    improvements: 0,
    proceeds: 0,
    fees: 0,
    gainRealised: 0,
    remainingCost: 0,
    remainingWorth: 0,
    unvalued: 0,
    gainInAll: 0,
  };
  for (const { cost, improvements, sold, worth } of cars) {
    const { proceeds, fees } = sold ?? { proceeds: 0, fees: 0 };
    const gain = netGain({ proceeds, fees, cost, improvements });
    result.cost += cost;
    result.improvements += improvements;
    result.proceeds += proceeds;
    result.fees += fees;
    if (sold) result.gainRealised += gain;
    else {
      result.remainingCost += cost + improvements;
      if (worth === null) result.unvalued++;
      else result.remainingWorth += worth;
    }
  }
  result.gainInAll =
    result.proceeds - result.fees + result.remainingWorth - result.cost - result.improvements;
  return result;
};

import { gainBend } from '../../../../valuation/decision/gain-bend.ts';
import { currencyDecimals } from '../../../../valuation/money.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';

/** An axis of gains, bent so that small ones and large ones can be told from their neighbours. */
export interface GainScale {
  /** 0 at the left end, 1 at the right. */
  at: (gain: Minor) => number;
  low: Minor;
  high: Minor;
  currency: Currency;
}

export const gainScale = (gains: readonly Minor[], currency: Currency, leastGain: Minor): GainScale => {
  const unit = 10 ** currencyDecimals(currency);
  const bend = gainBend(currency);
  let low = -2 * unit;
  let high = Math.max(2 * unit, leastGain * 2);
  for (const gain of gains) {
    if (gain < low) low = gain;
    if (gain > high) high = gain;
  }
  const air = (bend(high) - bend(low)) * 0.03;
  const from = bend(low) - air;
  const span = bend(high) + air - from;
  return { at: gain => (bend(gain) - from) / span, low, high, currency };
};

const steps = [1, 2, 5];

/**
 * Round gains along the axis, none nearer to its neighbour than `apart` (a share of the axis);
 * nothing always stands.
 */
export const gainTicks = (scale: GainScale, apart: number): Minor[] => {
  const unit = 10 ** currencyDecimals(scale.currency);
  const furthest = Math.max(Math.abs(scale.low), Math.abs(scale.high));
  const candidates: { amount: Minor; rank: number }[] = [];
  for (let power = unit; power <= furthest; power *= 10)
    for (const step of steps)
      for (const sign of [1, -1]) {
        const amount = sign * step * power;
        if (amount >= scale.low && amount <= scale.high)
          candidates.push({ amount, rank: step === 1 ? 0 : step === 5 ? 1 : 2 });
      }
  const taken: Minor[] = [0];
  candidates.sort((a, b) => a.rank - b.rank || Math.abs(b.amount) - Math.abs(a.amount));
  for (const { amount } of candidates)
    if (taken.every(other => Math.abs(scale.at(other) - scale.at(amount)) >= apart)) taken.push(amount);
  return taken.sort((a, b) => a - b);
};

import { currencyDecimals } from '../../../valuation/money.ts';
import { outerBounds } from '../../../valuation/statistics/outer-bounds.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';
import type { StripWorths } from './strip-worths.ts';

/** A log axis from `min` to `max` minor units, shared by all strips that are to be compared. */
export interface WorthScale {
  min: Minor;
  max: Minor;
  currency: Currency;
}

/** Where an amount falls: 0 at the left end, 1 at the right; `beyond` says that it lies off the axis. */
export interface Place {
  at: number;
  beyond: 'left' | 'right' | null;
}

const margin = 1.12;
const widest = 2000;

/**
 * A cost that eats most of a worth would stretch the axis towards zero: the net bar's low and
 * middle may leave it.
 */
const amountsOf = ({ asFound, restored, originalFinish }: StripWorths): Minor[] => [
  ...(asFound ? [asFound.low, asFound.high] : []),
  ...(restored ? [restored.gross] : []),
  ...(originalFinish ? [originalFinish.low, originalFinish.high] : []),
];

/** The axis between two amounts, with a little air at both ends; null where there are none. */
export const scaleBetween = (
  bounds: { low: Minor; high: Minor } | null,
  currency: Currency,
): WorthScale | null => {
  if (!bounds) return null;
  const { low, high: max } = bounds;
  const min = Math.max(low, max / widest);
  if (max / min >= 2) return { min: min / margin, max: max * margin, currency };
  // One amount alone still needs an axis to stand on.
  const middle = Math.sqrt(min * max);
  return { min: middle / 1.6, max: middle * 1.6, currency };
};

/** The axis that holds all given worths; null when there is nothing to place. */
export const worthScale = (
  worths: Iterable<StripWorths>,
  currency: Currency,
  more: readonly Minor[] = [],
): WorthScale | null => {
  const amounts = [...more];
  for (const worth of worths) amounts.push(...amountsOf(worth));
  return scaleBetween(outerBounds(amounts), currency);
};

/** Places an amount on the axis; what is zero or less lies beyond its left end. */
export const place = (scale: WorthScale, amount: Minor): Place => {
  if (amount < scale.min) return { at: 0, beyond: 'left' };
  if (amount > scale.max) return { at: 1, beyond: 'right' };
  return { at: Math.log(amount / scale.min) / Math.log(scale.max / scale.min), beyond: null };
};

export interface Tick {
  amount: Minor;
  at: number;
  /** True for powers of ten. */
  strong: boolean;
}

const coarse = [1];
const usual = [1, 2, 5];
const fine = [1, 1.5, 2, 3, 4, 5, 7];

const ticksOf = (scale: WorthScale, steps: readonly number[]): Tick[] => {
  const unit = 10 ** currencyDecimals(scale.currency);
  const first = Math.floor(Math.log10(scale.min / unit));
  const last = Math.ceil(Math.log10(scale.max / unit));
  const ticks: Tick[] = [];
  for (let power = first; power <= last; power += 1)
    for (const step of steps) {
      const amount = step * 10 ** power * unit;
      const spot = place(scale, amount);
      if (spot.beyond === null) ticks.push({ amount, at: spot.at, strong: step === 1 });
    }
  return ticks;
};

/**
 * Round amounts along the axis, about `wanted` of them at most: powers of ten, then 1-2-5, then finer steps.
 */
export const worthTicks = (scale: WorthScale, wanted = 8): Tick[] => {
  for (const steps of [fine, usual, coarse]) {
    const ticks = ticksOf(scale, steps);
    if (ticks.length <= wanted || steps === coarse) return ticks;
  }
  return [];
};

import { currencyDecimals } from '../money.ts';
import type { Currency, Minor } from '../types.ts';

/** Around so many whole units of the currency the axis turns from even to logarithmic. */
const knee = 10;

/**
 * Bends an axis of gains so that it is even around nothing and logarithmic further out (asinh): a loss of 3, a
 * gain of 8 and one of 800 can all be told from their neighbours.
 */
export const gainBend = (currency: Currency): ((gain: Minor) => number) => {
  const whole = knee * 10 ** currencyDecimals(currency);
  return gain => Math.asinh(gain / whole);
};

import { dayNumber } from '../calendar.ts';
import { currencyDecimals } from '../money.ts';
import { checkFinite } from '../statistics/check-input.ts';
import type { Currency, ExchangeRate, IsoDate } from '../types.ts';

/**
 * Log of the minor units of the reporting currency for one minor unit of `currency` on a day; null
 * when no rate holds.
 */
export type RateFinder = (currency: Currency, on: IsoDate) => number | null;

/**
 * A finder of dated exchange rates: each holds from its day until the next, and none holds before the first.
 * Throws RangeError on a rate that is not above zero, a bad date or a code that is no ISO 4217 currency.
 */
export const rateFinder = (reporting: Currency, rates: readonly ExchangeRate[]): RateFinder => {
  const decimals = currencyDecimals(reporting);
  const dated = new Map<Currency, { day: number; log: number }[]>();
  for (const { currency, on, rate } of rates) {
    checkFinite(rate, `rate of ${currency} on ${on}`);
    if (rate <= 0) throw new RangeError(`rate of ${currency} on ${on} must be above zero, not ${rate}`);
    const log = Math.log(rate) + (decimals - currencyDecimals(currency)) * Math.LN10;
    const list = dated.get(currency) ?? [];
    list.push({ day: dayNumber(on), log });
    dated.set(currency, list);
  }
  for (const list of dated.values()) list.sort((a, b) => a.day - b.day || a.log - b.log);
  return (currency, on) => {
    if (currency === reporting) return 0;
    const list = dated.get(currency);
    if (!list) return null;
    const day = dayNumber(on);
    let low = 0;
    let high = list.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (list[middle]!.day <= day) low = middle + 1;
      else high = middle;
    }
    return low === 0 ? null : list[low - 1]!.log;
  };
};

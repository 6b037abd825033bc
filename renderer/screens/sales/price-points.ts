import type { SaleRow } from '../../../electron/api/views.ts';
import type { RateFinder } from '../../../valuation/market/exchange-rate.ts';
import { currencyDecimals } from '../../../valuation/money.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';

export interface PricePoint {
  row: SaleRow;
  time: number;
  /** In minor units of the reporting currency, at the rate of the day. */
  amount: Minor;
}

/**
 * The records that can be drawn on one scale of money; those without an exchange rate on their day cannot.
 */
export const pricePoints = (rows: readonly SaleRow[], rateOf: RateFinder): PricePoint[] =>
  rows.flatMap(row => {
    const log = rateOf(row.currency, row.soldOn);
    if (log === null || row.price <= 0) return [];
    return [{ row, time: Date.parse(`${row.soldOn}T00:00:00Z`), amount: row.price * Math.exp(log) }];
  });

/** Round amounts 1, 2, 5, 10 … between two; only 1 and 10 … where there would be too many. */
export const logTicks = (low: Minor, high: Minor, currency: Currency): Minor[] => {
  const unit = 10 ** currencyDecimals(currency);
  const ticks: Minor[] = [];
  for (let power = Math.floor(Math.log10(low / unit)); power <= Math.log10(high / unit); power += 1)
    for (const step of [1, 2, 5]) ticks.push(step * 10 ** power * unit);
  const within = ticks.map(Math.round).filter(tick => tick >= low && tick <= high && tick > 0);
  return within.length > 7 ? within.filter(tick => /^10*$/.test(String(tick))) : within;
};

/** The starts of the years that the points span. */
export const yearTicks = (points: readonly PricePoint[]): number[] => {
  const times = points.map(({ time }) => time);
  const first = new Date(Math.min(...times)).getUTCFullYear();
  const last = new Date(Math.max(...times)).getUTCFullYear();
  const every = Math.ceil((last - first + 1) / 10);
  const years: number[] = [];
  for (let year = first + 1; year <= last; year += every) years.push(Date.UTC(year, 0, 1));
  return years;
};

import type { ExchangeRate, IsoDate } from '../../../valuation/types.ts';
import type { Row } from '../content.ts';

/**
 * US dollars for one unit, as the demo's owner noted them down twice a year. Rounded figures,
 * for the demo alone.
 */
const noted: [IsoDate, gbp: number, eur: number][] = [
  ['2018-10-01', 1.3, 1.16],
  ['2019-04-01', 1.31, 1.125],
  ['2019-10-01', 1.23, 1.095],
  ['2020-04-01', 1.24, 1.095],
  ['2020-10-01', 1.29, 1.175],
  ['2021-04-01', 1.38, 1.18],
  ['2021-10-01', 1.35, 1.16],
  ['2022-04-01', 1.31, 1.105],
  ['2022-10-01', 1.12, 0.985],
  ['2023-04-01', 1.24, 1.09],
  ['2023-10-01', 1.22, 1.055],
  ['2024-04-01', 1.26, 1.08],
  ['2024-10-01', 1.325, 1.105],
  ['2025-04-01', 1.295, 1.085],
  ['2025-10-01', 1.345, 1.175],
  ['2026-04-01', 1.33, 1.16],
  ['2026-10-01', 1.325, 1.155],
];

/** The invented exchange rates: US dollars for one unit of the currency. */
export const demoRates: ExchangeRate[] = noted.flatMap(([on, gbp, eur]) => [
  { currency: 'GBP', on, rate: gbp },
  { currency: 'EUR', on, rate: eur },
]);

/** The same as rows; rates in billionths (`rate_e9`). */
export const rateRows: Row<'exchange_rate'>[] = demoRates.map((rate, i) => ({
  id: i + 1,
  currency: rate.currency,
  on_date: rate.on,
  rate_e9: Math.round(rate.rate * 1e9),
}));

/** US dollars for one unit of a currency on a day: the last rate noted on or before it. */
export const rateOn = (currency: string, on: IsoDate): number => {
  if (currency === 'USD') return 1;
  const rate = demoRates.filter(one => one.currency === currency && one.on <= on).at(-1);
  if (!rate) throw new RangeError(`the demo has no ${currency} rate for ${on}`);
  return rate.rate;
};

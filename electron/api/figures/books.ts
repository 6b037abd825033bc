import { readReportingCurrency } from '../../../db/records/collection/settings.ts';
import { marketRates } from '../../../db/records/worth/rates.ts';
import { rateFinder } from '../../../valuation/market/exchange-rate.ts';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import { memo } from '../session/memo.ts';

/** Brings amounts to the reporting currency at the rate of their day. */
export interface Books {
  currency: Currency;
  /** The amount in the reporting currency, or null where no rate of that currency is known for the day. */
  convert(minor: Minor, currency: Currency, on: IsoDate): Minor | null;
}

export const booksOf = memo<Books>(async ({ db }) => {
  const currency = await readReportingCurrency(db);
  const find = rateFinder(currency, await marketRates(db));
  return {
    currency,
    convert(minor, from, on) {
      if (from === currency) return minor;
      const log = find(from, on);
      return log === null ? null : Math.round(minor * Math.exp(log));
    },
  };
});

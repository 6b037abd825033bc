import type { Kysely, Transaction } from 'kysely';
import type { Currency, ExchangeRate, IsoDate } from '../../../valuation/types.ts';
import type { Schema } from '../../schema.ts';

/**
 * A dated rate: reporting currency for one unit of `currency`, as a decimal string with nine
 * decimals at most.
 */
export interface RateEntry {
  id: number;
  currency: Currency;
  on: IsoDate;
  rate: string;
}

/** Billionths of a decimal string such as "1.2735"; throws RangeError on anything else and on nothing. */
export const rateToE9 = (rate: string): number => {
  const match = /^(\d+)(?:\.(\d{1,9}))?$/.exec(rate);
  const value = match ? Number((match[1] ?? '') + (match[2] ?? '').padEnd(9, '0')) : Number.NaN;
  if (!Number.isSafeInteger(value) || value === 0)
    throw new RangeError(`"${rate}" is not a rate of more than zero, such as 1.2735`);
  return value;
};

/** The decimal string of a rate kept in billionths. */
export const e9ToRate = (e9: number): string => {
  const digits = String(e9).padStart(10, '0');
  return `${digits.slice(0, -9)}.${digits.slice(-9)}`.replace(/\.?0+$/, '');
};

/** All rates, by currency, the newest first. */
export const listRates = async (db: Kysely<Schema>): Promise<RateEntry[]> => {
  const rows = await db
    .selectFrom('exchange_rate')
    .selectAll()
    .orderBy('currency')
    .orderBy('on_date', 'desc')
    .execute();
  return rows.map(row => ({
    id: row.id,
    currency: row.currency,
    on: row.on_date,
    rate: e9ToRate(row.rate_e9),
  }));
};

/** All rates as the engine takes them. */
export const marketRates = async (db: Kysely<Schema>): Promise<ExchangeRate[]> => {
  const rows = await db.selectFrom('exchange_rate').selectAll().orderBy('on_date').orderBy('id').execute();
  return rows.map(row => ({ currency: row.currency, on: row.on_date, rate: row.rate_e9 / 1e9 }));
};

/** Keeps a currency's rate of a day, in place of an earlier one of that day. */
export const saveRate = async (
  trx: Transaction<Schema>,
  currency: Currency,
  on: IsoDate,
  rate: string,
): Promise<void> => {
  const rate_e9 = rateToE9(rate);
  await trx
    .insertInto('exchange_rate')
    .values({ currency, on_date: on, rate_e9 })
    .onConflict(conflict => conflict.columns(['currency', 'on_date']).doUpdateSet({ rate_e9 }))
    .execute();
};

/** Removes a rate. */
export const removeRate = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('exchange_rate').where('id', '=', id).executeTakeFirstOrThrow();
};

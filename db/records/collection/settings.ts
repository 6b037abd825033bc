import type { Kysely, Transaction } from 'kysely';
import type { Currency } from '../../../valuation/types.ts';
import type { Schema } from '../../schema.ts';
import { countSeenCars } from '../seen-lots.ts';

/**
 * The value kept under a key, or undefined. Keys are kebab-case; values are text, JSON where they have parts.
 */
export const readSetting = async (db: Kysely<Schema>, key: string): Promise<string | undefined> =>
  (await db.selectFrom('setting').select('value').where('key', '=', key).executeTakeFirst())?.value;

/** Keeps a value under a key, replacing what was there. */
export const writeSetting = async (trx: Transaction<Schema>, key: string, value: string): Promise<void> => {
  await trx
    .insertInto('setting')
    .values({ key, value })
    .onConflict(conflict => conflict.column('key').doUpdateSet({ value }))
    .execute();
};

/** ISO 4217 code in which the collection's totals are given. */
export const readReportingCurrency = async (db: Kysely<Schema>): Promise<Currency> =>
  (await readSetting(db, 'reporting-currency')) ?? 'USD';

/**
 * What a collection holds whose amounts are in the reporting currency, and would change their
 * meaning with it.
 */
export const heldInReportingCurrency = async (db: Kysely<Schema>) => {
  const any = async (table: 'exchange_rate' | 'restoration_plan' | 'assumption_set' | 'valuation') =>
    (await db.selectFrom(table).select('id').limit(1).executeTakeFirst()) !== undefined;
  const own = await db
    .selectFrom('car')
    .select('id')
    .where('own_mid_minor', 'is not', null)
    .limit(1)
    .executeTakeFirst();
  return {
    rates: await any('exchange_rate'),
    plans: await any('restoration_plan'),
    assumptions: await any('assumption_set'),
    valuations: await any('valuation'),
    ownValues: own !== undefined,
  };
};

/** How much is in the collection; the cars of lots that were only seen are counted apart. */
export const collectionCounts = async (db: Kysely<Schema>) => {
  const count = async (table: 'car' | 'lot' | 'casting' | 'variation' | 'sale_record' | 'photo') =>
    (
      await db
        .selectFrom(table)
        .select(eb => eb.fn.countAll<number>().as('number'))
        .executeTakeFirstOrThrow()
    ).number;
  const seenCars = await countSeenCars(db);
  return {
    cars: (await count('car')) - seenCars,
    seenCars,
    lots: await count('lot'),
    castings: await count('casting'),
    variations: await count('variation'),
    saleRecords: await count('sale_record'),
    photographs: await count('photo'),
  };
};

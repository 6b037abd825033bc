import type { Kysely, Transaction } from 'kysely';
import type { Schema } from '../schema.ts';

/** The value kept under a key, or undefined. Keys are kebab-case; values are text, JSON where they have parts. */
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
export const readReportingCurrency = async (db: Kysely<Schema>): Promise<string> =>
  (await readSetting(db, 'reporting-currency')) ?? 'USD';

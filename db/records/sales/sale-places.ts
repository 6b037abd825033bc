import type { Kysely } from 'kysely';
import type { Schema } from '../../schema.ts';

const most = 500;

/** The places where sales were seen, as the newest records name them. */
export const placesOfSales = async (db: Kysely<Schema>): Promise<string[]> => {
  const rows = await db
    .selectFrom('sale_record')
    .select('source')
    .where('source', '!=', '')
    .groupBy('source')
    .orderBy(({ fn }) => fn.max('id'), 'desc')
    .limit(most)
    .execute();
  return rows.map(({ source }) => source);
};

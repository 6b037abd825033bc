import type { Kysely } from 'kysely';
import type { Market, SaleRecord } from '../../valuation/types.ts';
import { readReportingCurrency } from '../records/collection/settings.ts';
import { rowToSale, saleToMarket } from '../records/sales/sales.ts';
import { listBeliefs } from '../records/worth/beliefs.ts';
import { marketRates } from '../records/worth/rates.ts';
import type { Schema } from '../schema.ts';

/** The sale records that the engine may use, in the order in which they were entered. */
const marketSales = async (db: Kysely<Schema>): Promise<SaleRecord[]> => {
  const rows = await db
    .selectFrom('sale_record')
    .selectAll()
    .where('excluded', '=', 0)
    .where('casting_id', 'is not', null)
    .orderBy('id')
    .execute();
  return rows.flatMap(row => saleToMarket(rowToSale(row)) ?? []);
};

/**
 * All that the engine takes of the market but for what was paid, as plain values; what was paid
 * comes from `readPurchases`.
 */
export const readMarket = async (db: Kysely<Schema>): Promise<Market> => {
  const castings = await db.selectFrom('casting').select(['id', 'series_id']).orderBy('id').execute();
  const variations = await db
    .selectFrom('variation')
    .innerJoin('release', 'release.id', 'variation.release_id')
    .select(['variation.id', 'release.casting_id', 'variation.rarity'])
    .orderBy('variation.id')
    .execute();
  return {
    reportingCurrency: await readReportingCurrency(db),
    castings: castings.map(row => ({ id: row.id, seriesId: row.series_id })),
    variations: variations.map(row => ({ id: row.id, castingId: row.casting_id, rarity: row.rarity })),
    sales: await marketSales(db),
    rates: await marketRates(db),
    beliefs: (await listBeliefs(db)).map(({ note: _, ...belief }) => belief),
  };
};

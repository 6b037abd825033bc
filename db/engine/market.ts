import type { Kysely } from 'kysely';
import type { Market, SaleRecord } from '../../valuation/types.ts';
import { heldOnce } from '../codec.ts';
import { readReportingCurrency } from '../records/collection/settings.ts';
import { rowToSale, saleToMarket } from '../records/sales/sales.ts';
import { listBeliefs } from '../records/worth/beliefs.ts';
import { marketRates } from '../records/worth/rates.ts';
import type { Schema } from '../schema.ts';

/** So many rows are read together, and let go of when the engine's records are made of them. */
const readTogether = 1000;
const noParts: SaleRecord['missingParts'] = [];
const partsOf = (parts: SaleRecord['missingParts']) => (parts.length === 0 ? noParts : parts);

/**
 * The sale records that the engine may use, in the order in which they were entered. What many of them say is held
 * once: they stay in memory as long as the market.
 */
const marketSales = async (db: Kysely<Schema>): Promise<SaleRecord[]> => {
  const one = heldOnce();
  const sales: SaleRecord[] = [];
  for (let last = 0, isMore = true; isMore; ) {
    const rows = await db
      .selectFrom('sale_record')
      .selectAll()
      .where('excluded', '=', 0)
      .where('casting_id', 'is not', null)
      .where('id', '>', last)
      .orderBy('id')
      .limit(readTogether)
      .execute();
    for (const row of rows) {
      const sale = saleToMarket(rowToSale(row));
      if (!sale) continue;
      const { soldOn, currency, finishState, source, missingParts, reproductionParts } = sale;
      sales.push({
        ...sale,
        soldOn: one(soldOn),
        currency: one(currency),
        finishState: one(finishState),
        source: one(source),
        missingParts: partsOf(missingParts),
        reproductionParts: partsOf(reproductionParts),
      });
    }
    last = rows.at(-1)?.id ?? last;
    isMore = rows.length === readTogether;
  }
  return sales;
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

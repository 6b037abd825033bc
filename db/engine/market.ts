import type { Kysely } from 'kysely';
import type { Market, SaleRecord } from '../../valuation/types.ts';
import { type PartName, partNames } from '../../valuation/words.ts';
import { readWords } from '../codec.ts';
import { marketRates } from '../records/rates.ts';
import { readReportingCurrency } from '../records/settings.ts';
import type { Schema } from '../schema.ts';

const wordsOf = (json: string): PartName[] => (json === '[]' ? [] : readWords(json, partNames));

/** The sale records that the engine may use: those of a known casting that the owner has not excluded. */
const marketSales = async (db: Kysely<Schema>): Promise<SaleRecord[]> => {
  const rows = await db
    .selectFrom('sale_record')
    .select([
      'id',
      'sold_on',
      'price_minor',
      'currency',
      'casting_id',
      'variation_id',
      'grade_half',
      'finish_state',
      'missing_parts',
      'reproduction_parts',
      'reliability_percent',
      'source',
    ])
    .where('excluded', '=', 0)
    .where('casting_id', 'is not', null)
    .orderBy('id')
    .execute();
  return rows.flatMap(row =>
    row.casting_id === null
      ? []
      : [
          {
            id: row.id,
            soldOn: row.sold_on,
            price: row.price_minor,
            currency: row.currency,
            castingId: row.casting_id,
            variationId: row.variation_id,
            grade: row.grade_half === null ? null : row.grade_half / 2,
            finishState: row.finish_state,
            missingParts: wordsOf(row.missing_parts),
            reproductionParts: wordsOf(row.reproduction_parts),
            reliability: row.reliability_percent === null ? null : row.reliability_percent / 100,
            source: row.source,
          },
        ],
  );
};

/** All that the engine takes of the market, as plain values. */
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
  };
};

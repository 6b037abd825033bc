import { demoContent } from '../../../electron/demo/demo-content.ts';
import { demoRates } from '../../../electron/demo/market/rates.ts';
import type { Market, SaleRecord } from '../../../valuation/types.ts';
import type { PartName } from '../../../valuation/words.ts';

const partList = (json: unknown): PartName[] => (typeof json === 'string' && json ? JSON.parse(json) : []);

/** The demo's market as the engine is given it, without the records that its owner has excluded. */
export const demoMarket = (): Market => {
  const { tables } = demoContent();
  const releases = new Map(tables.release.map(release => [release.id!, release.casting_id]));
  return {
    reportingCurrency: 'USD',
    castings: tables.casting.map(casting => ({ id: casting.id!, seriesId: casting.series_id })),
    variations: tables.variation.map(variation => ({
      id: variation.id!,
      castingId: releases.get(variation.release_id)!,
      rarity: variation.rarity ?? null,
    })),
    sales: tables.sale_record
      .filter(sale => sale.casting_id != null && !sale.excluded)
      .map(
        (sale): SaleRecord => ({
          id: sale.id!,
          soldOn: sale.sold_on,
          price: sale.price_minor,
          currency: sale.currency,
          castingId: sale.casting_id!,
          variationId: sale.variation_id ?? null,
          grade: sale.grade_half == null ? null : sale.grade_half / 2,
          finishState: sale.finish_state ?? 'original',
          missingParts: partList(sale.missing_parts),
          reproductionParts: partList(sale.reproduction_parts),
          reliability: sale.reliability_percent == null ? null : sale.reliability_percent / 100,
          source: sale.source ?? '',
        }),
      ),
    rates: demoRates,
  };
};

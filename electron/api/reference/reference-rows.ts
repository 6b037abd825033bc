import type { CastingRecord, referenceUse } from '../../../db/reference/reference.ts';
import type { CastingRow, VariationRow } from '../views.ts';
import type { IndexedVariation, ReferenceIndex } from './reference-index.ts';

type Use = Awaited<ReturnType<typeof referenceUse>>;

/** A variation as lists show it. */
export const variationRow = (index: ReferenceIndex, variation: IndexedVariation, use: Use): VariationRow => {
  const casting = index.castings.get(variation.castingId);
  return {
    id: variation.id,
    castingId: variation.castingId,
    casting: casting?.name ?? '',
    series: casting?.series ?? '',
    releaseId: variation.releaseId,
    releaseName: variation.releaseName,
    releaseYear: variation.releaseYear,
    features: variation.features,
    swatch: variation.swatch,
    rarity: variation.rarity,
    label: variation.label,
    beyondColour: variation.beyondColour,
    factorySpecification: variation.factorySpecification,
    cars: use.variationCars.get(variation.id) ?? 0,
    saleRecords: use.variationSales.get(variation.id) ?? 0,
  };
};

/** A casting as lists show it. */
export const castingRow = (index: ReferenceIndex, casting: CastingRecord, use: Use): CastingRow => ({
  id: casting.id,
  maker: casting.maker,
  series: casting.series,
  seriesId: casting.seriesId,
  name: casting.name,
  bodyType: casting.bodyType,
  firstYear: casting.firstYear,
  releases: index.releasesOf.get(casting.id)?.length ?? 0,
  variations: index.ofCasting.get(casting.id)?.length ?? 0,
  cars: use.castingCars.get(casting.id) ?? 0,
  saleRecords: use.castingSales.get(casting.id) ?? 0,
});

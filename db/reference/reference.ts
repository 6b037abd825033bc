import type { Kysely } from 'kysely';
import type { BasePaint, Rarity, VariationFeature } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';

/** A casting with its series and maker. */
export interface CastingRecord {
  id: number;
  makerId: number;
  maker: string;
  seriesId: number;
  series: string;
  name: string;
  bodyType: string;
  firstYear: number | null;
  lengthMm: number | null;
  materials: string;
  markings: string;
  notes: string;
}

/** A casting sold under a name from a year on. */
export interface ReleaseRecord {
  id: number;
  castingId: number;
  name: string;
  year: number | null;
  changedPart: string;
  notes: string;
}

/** What tells a variation apart; empty text where it does not apply or was not recorded. */
export type FeatureTexts = Record<VariationFeature, string>;

export interface VariationRecord {
  id: number;
  releaseId: number;
  castingId: number;
  releaseName: string;
  releaseYear: number | null;
  features: FeatureTexts;
  rarity: Rarity | null;
  factorySpecification: string;
  notes: string;
}

/** The features of a variation as its row keeps them. */
export const rowToFeatures = (row: {
  colour: string;
  body_finish: string;
  base_paint: BasePaint | '';
  rear_end: string;
  roof: string;
  interior: string;
  glazing: string;
  wheels: string;
  accessory: string;
  country: string;
}): FeatureTexts => ({
  colour: row.colour,
  bodyFinish: row.body_finish,
  basePaint: row.base_paint,
  rearEnd: row.rear_end,
  roof: row.roof,
  interior: row.interior,
  glazing: row.glazing,
  wheels: row.wheels,
  accessory: row.accessory,
  country: row.country,
});

/** The columns that keep a variation's features; those not given are empty. */
export const featuresToRow = (features: Partial<FeatureTexts>) => ({
  colour: features.colour ?? '',
  body_finish: features.bodyFinish ?? '',
  base_paint: (features.basePaint ?? '') as BasePaint | '',
  rear_end: features.rearEnd ?? '',
  roof: features.roof ?? '',
  interior: features.interior ?? '',
  glazing: features.glazing ?? '',
  wheels: features.wheels ?? '',
  accessory: features.accessory ?? '',
  country: features.country ?? '',
});

/** All castings, by maker, series and name. */
export const listCastings = async (db: Kysely<Schema>): Promise<CastingRecord[]> => {
  const rows = await db
    .selectFrom('casting')
    .innerJoin('series', 'series.id', 'casting.series_id')
    .innerJoin('maker', 'maker.id', 'series.maker_id')
    .selectAll('casting')
    .select(['maker.id as maker_id', 'maker.name as maker', 'series.name as series'])
    .orderBy('maker.name')
    .orderBy('series.first_year')
    .orderBy('series.name')
    .orderBy('casting.name')
    .execute();
  return rows.map(row => ({
    id: row.id,
    makerId: row.maker_id,
    maker: row.maker,
    seriesId: row.series_id,
    series: row.series,
    name: row.name,
    bodyType: row.body_type,
    firstYear: row.first_year,
    lengthMm: row.length_mm,
    materials: row.materials,
    markings: row.markings,
    notes: row.notes,
  }));
};

/** All releases, a casting's in the order of their years. */
export const listReleases = async (db: Kysely<Schema>): Promise<ReleaseRecord[]> => {
  const rows = await db
    .selectFrom('release')
    .selectAll()
    .orderBy('casting_id')
    .orderBy('year')
    .orderBy('id')
    .execute();
  return rows.map(row => ({
    id: row.id,
    castingId: row.casting_id,
    name: row.name,
    year: row.year,
    changedPart: row.changed_part,
    notes: row.notes,
  }));
};

/** All variations, a casting's by release and colour. */
export const listVariations = async (db: Kysely<Schema>): Promise<VariationRecord[]> => {
  const rows = await db
    .selectFrom('variation')
    .innerJoin('release', 'release.id', 'variation.release_id')
    .selectAll('variation')
    .select(['release.casting_id', 'release.name as release_name', 'release.year as release_year'])
    .orderBy('release.casting_id')
    .orderBy('release.year')
    .orderBy('release.id')
    .orderBy('variation.colour')
    .orderBy('variation.id')
    .execute();
  return rows.map(row => ({
    id: row.id,
    releaseId: row.release_id,
    castingId: row.casting_id,
    releaseName: row.release_name,
    releaseYear: row.release_year,
    features: rowToFeatures(row),
    rarity: row.rarity,
    factorySpecification: row.factory_specification,
    notes: row.notes,
  }));
};

/** Values that a casting's features are known to take, whether or not a variation has them. */
export const castingFeatures = async (
  db: Kysely<Schema>,
  castingId: number,
): Promise<{ feature: VariationFeature; value: string }[]> =>
  await db
    .selectFrom('casting_feature')
    .select(['feature', 'value'])
    .where('casting_id', '=', castingId)
    .orderBy('id')
    .execute();

/** The country of each maker whose country is recorded, by the maker's id. */
export const makerCountries = async (db: Kysely<Schema>): Promise<Map<number, string>> => {
  const rows = await db.selectFrom('maker').select(['id', 'country']).execute();
  return new Map(rows.flatMap(({ id, country }) => (country ? [[id, country] as const] : [])));
};

/** The names of the colours that have a swatch. */
export const colourNames = async (db: Kysely<Schema>): Promise<string[]> =>
  (await db.selectFrom('colour').select('name').orderBy('name').execute()).map(row => row.name);

/** The swatch that the owner chose for each colour name, under the name in lower case. */
export const colourSwatches = async (db: Kysely<Schema>): Promise<Map<string, string>> => {
  const rows = await db.selectFrom('colour').select(['name', 'swatch']).execute();
  return new Map(rows.map(row => [row.name.toLowerCase(), row.swatch]));
};

/** How many cars and sale records name each casting, and each variation. */
export const referenceUse = async (db: Kysely<Schema>) => {
  const count = async (table: 'car' | 'sale_record', column: 'casting_id' | 'variation_id') => {
    const rows = await db
      .selectFrom(table)
      .select([column, eb => eb.fn.countAll<number>().as('number')])
      .where(column, 'is not', null)
      .groupBy(column)
      .execute();
    return new Map(rows.map(row => [row[column] as number, row.number]));
  };
  return {
    castingCars: await count('car', 'casting_id'),
    castingSales: await count('sale_record', 'casting_id'),
    variationCars: await count('car', 'variation_id'),
    variationSales: await count('sale_record', 'variation_id'),
  };
};

import type { Transaction } from 'kysely';
import type { Rarity } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';
import { plain } from './plain.ts';
import { type CastingRecord, type FeatureTexts, featuresToRow } from './reference.ts';
import { unknownMaker, unsortedSeries } from './unsorted.ts';

/** The id of the maker of this name, added where there is none. */
export const ensureMaker = async (trx: Transaction<Schema>, name: string): Promise<number> => {
  const found = await trx.selectFrom('maker').select('id').where('name', '=', name).executeTakeFirst();
  if (found) return found.id;
  return (
    await trx.insertInto('maker').values({ name, country: null }).returning('id').executeTakeFirstOrThrow()
  ).id;
};

/** The id of the maker's series of this name, added where there is none. */
export const ensureSeries = async (
  trx: Transaction<Schema>,
  makerId: number,
  name: string,
): Promise<number> => {
  const found = await trx
    .selectFrom('series')
    .select('id')
    .where('maker_id', '=', makerId)
    .where('name', '=', name)
    .executeTakeFirst();
  if (found) return found.id;
  return (
    await trx
      .insertInto('series')
      .values({ maker_id: makerId, name, first_year: null, last_year: null })
      .returning('id')
      .executeTakeFirstOrThrow()
  ).id;
};

/** The id of the casting's release of this name and year, added where there is none. */
export const ensureRelease = async (
  trx: Transaction<Schema>,
  castingId: number,
  name: string,
  year: number | null,
): Promise<number> => {
  const found = await trx
    .selectFrom('release')
    .select('id')
    .where('casting_id', '=', castingId)
    .where('name', '=', name)
    .where('year', year === null ? 'is' : '=', year)
    .executeTakeFirst();
  if (found) return found.id;
  return (
    await trx
      .insertInto('release')
      .values({ casting_id: castingId, name, year })
      .returning('id')
      .executeTakeFirstOrThrow()
  ).id;
};

export type NewCasting = Omit<CastingRecord, 'id' | 'makerId' | 'seriesId'>;

/** The columns of a casting. */
export const castingToRow = (seriesId: number, casting: Omit<NewCasting, 'maker' | 'series'>) => ({
  series_id: seriesId,
  name: casting.name,
  body_type: casting.bodyType,
  first_year: casting.firstYear,
  length_mm: casting.lengthMm,
  materials: casting.materials,
  markings: casting.markings,
  notes: casting.notes,
});

/** Adds a casting, or changes the one of this id; its maker and series are added where there are none. */
export const saveCasting = async (
  trx: Transaction<Schema>,
  casting: NewCasting & { id?: number },
): Promise<number> => {
  const seriesId = await ensureSeries(trx, await ensureMaker(trx, casting.maker), casting.series);
  const values = castingToRow(seriesId, casting);
  if (casting.id !== undefined) {
    await trx.updateTable('casting').set(values).where('id', '=', casting.id).executeTakeFirstOrThrow();
    return casting.id;
  }
  return (await trx.insertInto('casting').values(values).returning('id').executeTakeFirstOrThrow()).id;
};

/**
 * Puts castings into a series of a maker, both added where there are none; what was not sorted yet and is
 * left empty goes. Returns the names that the series would have twice; then nothing may be kept of it.
 */
export const moveCastings = async (
  trx: Transaction<Schema>,
  { ids, series, maker }: { ids: readonly number[]; series: string; maker: string },
): Promise<string[]> => {
  const seriesId = await ensureSeries(trx, await ensureMaker(trx, maker), series);
  const moved = await trx
    .selectFrom('casting')
    .select(['id', 'name'])
    .where('id', 'in', [...ids])
    .execute();
  const there = await trx
    .selectFrom('casting')
    .select(['id', 'name'])
    .where('series_id', '=', seriesId)
    .execute();
  const names = new Set(there.filter(({ id }) => !ids.includes(id)).map(({ name }) => plain(name)));
  const taken = moved.filter(({ name }) => {
    const isTaken = names.has(plain(name));
    names.add(plain(name));
    return isTaken;
  });
  if (taken.length > 0) return taken.map(({ name }) => name);
  await trx
    .updateTable('casting')
    .set({ series_id: seriesId })
    .where('id', 'in', [...ids])
    .execute();
  await removeEmptyHomes(trx);
  return [];
};

/** Series and makers whose name says that nobody has given one yet go when nothing is left in them. */
const removeEmptyHomes = async (trx: Transaction<Schema>): Promise<void> => {
  await trx
    .deleteFrom('series')
    .where('name', '=', unsortedSeries)
    .where(eb =>
      eb.not(eb.exists(eb.selectFrom('casting').select('id').whereRef('series_id', '=', 'series.id'))),
    )
    .where(eb =>
      eb.not(eb.exists(eb.selectFrom('belief').select('id').whereRef('series_id', '=', 'series.id'))),
    )
    .execute();
  await trx
    .deleteFrom('maker')
    .where('name', '=', unknownMaker)
    .where(eb =>
      eb.not(eb.exists(eb.selectFrom('series').select('id').whereRef('maker_id', '=', 'maker.id'))),
    )
    .execute();
};

export interface NewVariation {
  castingId: number;
  releaseName: string;
  releaseYear: number | null;
  features: Partial<FeatureTexts>;
  rarity: Rarity | null;
  factorySpecification: string;
}

/** The columns of a variation. */
export const variationToRow = (
  releaseId: number,
  { features, rarity, factorySpecification }: Omit<NewVariation, 'castingId' | 'releaseName' | 'releaseYear'>,
) => ({
  release_id: releaseId,
  ...featuresToRow(features),
  rarity,
  factory_specification: factorySpecification,
});

/** Adds a variation, or changes the one of this id; its release is added where there is none. */
export const saveVariation = async (
  trx: Transaction<Schema>,
  variation: NewVariation & { id?: number },
): Promise<number> => {
  const releaseId = await ensureRelease(
    trx,
    variation.castingId,
    variation.releaseName,
    variation.releaseYear,
  );
  const values = variationToRow(releaseId, variation);
  if (variation.id !== undefined) {
    await trx.updateTable('variation').set(values).where('id', '=', variation.id).executeTakeFirstOrThrow();
    // Cars keep the release beside the variation.
    await trx
      .updateTable('car')
      .set({ release_id: releaseId, casting_id: variation.castingId })
      .where('variation_id', '=', variation.id)
      .where(eb =>
        eb.or([eb('release_id', 'is not', releaseId), eb('casting_id', 'is not', variation.castingId)]),
      )
      .execute();
    return variation.id;
  }
  return (await trx.insertInto('variation').values(values).returning('id').executeTakeFirstOrThrow()).id;
};

/** Removes a variation; cars and sale records that named it keep their casting. */
export const removeVariation = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.updateTable('car').set({ variation_id: null }).where('variation_id', '=', id).execute();
  await trx.updateTable('sale_record').set({ variation_id: null }).where('variation_id', '=', id).execute();
  await trx.deleteFrom('car_candidate').where('variation_id', '=', id).execute();
  await trx.deleteFrom('photo').where('variation_id', '=', id).execute();
  await trx.deleteFrom('variation').where('id', '=', id).executeTakeFirstOrThrow();
};

/** Removes a casting that no car and no sale record names, with its releases and variations. */
export const removeCasting = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  const variations = await trx
    .selectFrom('variation')
    .innerJoin('release', 'release.id', 'variation.release_id')
    .select('variation.id')
    .where('release.casting_id', '=', id)
    .execute();
  for (const variation of variations) await removeVariation(trx, variation.id);
  await trx.deleteFrom('casting_feature').where('casting_id', '=', id).execute();
  await trx.deleteFrom('casting_part').where('casting_id', '=', id).execute();
  await trx.deleteFrom('release').where('casting_id', '=', id).execute();
  await trx.deleteFrom('casting').where('id', '=', id).executeTakeFirstOrThrow();
};

/** Keeps the swatch that the owner chose for a colour name. */
export const saveColour = async (trx: Transaction<Schema>, name: string, swatch: string): Promise<void> => {
  await trx
    .insertInto('colour')
    .values({ name, swatch })
    .onConflict(conflict => conflict.column('name').doUpdateSet({ swatch }))
    .execute();
};

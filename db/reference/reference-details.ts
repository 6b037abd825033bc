import type { Kysely, Transaction } from 'kysely';
import type { PartName, VariationFeature } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';

/** A part of a casting: what is known of it (thread, drill, length), and what to look at. */
export interface CastingPart {
  part: PartName;
  detail: string;
  lookAt: string;
}

/** What is known of a casting's making. */
export interface CastingDetails {
  /** How it is put together. */
  assembly: string;
  bearings: '' | 'open' | 'captive';
  parts: CastingPart[];
}

/** Values that a feature of a casting can take, those of its variations or others. */
export interface FeatureValues {
  feature: VariationFeature;
  values: string[];
}

export const castingDetails = async (db: Kysely<Schema>, castingId: number): Promise<CastingDetails> => {
  const { assembly, bearings } = await db
    .selectFrom('casting')
    .select(['assembly', 'bearings'])
    .where('id', '=', castingId)
    .executeTakeFirstOrThrow();
  const parts = await db
    .selectFrom('casting_part')
    .select(['part', 'detail', 'look_at as lookAt'])
    .where('casting_id', '=', castingId)
    .orderBy('position')
    .orderBy('id')
    .execute();
  return { assembly, bearings, parts };
};

/** Keeps what is given of a casting's making; parts with nothing to say of them go. */
export const saveCastingDetails = async (
  trx: Transaction<Schema>,
  castingId: number,
  {
    assembly,
    bearings,
    parts,
    featureValues,
  }: { [Key in keyof CastingDetails]?: CastingDetails[Key] | undefined } & {
    featureValues?: FeatureValues[] | undefined;
  },
): Promise<void> => {
  if (featureValues) await saveFeatureValues(trx, castingId, featureValues);
  if (assembly !== undefined || bearings !== undefined)
    await trx
      .updateTable('casting')
      .set({ ...(assembly !== undefined && { assembly }), ...(bearings !== undefined && { bearings }) })
      .where('id', '=', castingId)
      .execute();
  if (!parts) return;
  const said = parts.filter(({ detail, lookAt }) => detail.trim() !== '' || lookAt.trim() !== '');
  const kept = said.map(({ part }) => part);
  let gone = trx.deleteFrom('casting_part').where('casting_id', '=', castingId);
  if (kept.length > 0) gone = gone.where('part', 'not in', kept);
  await gone.execute();
  for (const [position, { part, detail, lookAt }] of said.entries())
    await trx
      .insertInto('casting_part')
      .values({ casting_id: castingId, part, detail, look_at: lookAt, position })
      .onConflict(conflict =>
        conflict.columns(['casting_id', 'part']).doUpdateSet({ detail, look_at: lookAt, position }),
      )
      .execute();
};

/** Keeps the values of the features that are given, in place of those that were there. */
const saveFeatureValues = async (
  trx: Transaction<Schema>,
  castingId: number,
  given: readonly FeatureValues[],
): Promise<void> => {
  for (const { feature, values } of given) {
    await trx
      .deleteFrom('casting_feature')
      .where('casting_id', '=', castingId)
      .where('feature', '=', feature)
      .execute();
    const rows = [...new Set(values.map(value => value.trim()).filter(Boolean))].map(value => ({
      casting_id: castingId,
      feature,
      value,
    }));
    if (rows.length > 0)
      await trx
        .insertInto('casting_feature')
        .values(rows)
        .onConflict(conflict => conflict.doNothing())
        .execute();
  }
};

/** What is known of a variation beside its features. */
export interface VariationDetails {
  notes: string;
  /** The base and its paint, in words. */
  baseWords: string;
  wheelSizes: string;
}

/** The details of a casting's variations, by variation. */
export const variationDetails = async (
  db: Kysely<Schema>,
  castingId: number,
): Promise<(VariationDetails & { id: number })[]> =>
  db
    .selectFrom('variation')
    .innerJoin('release', 'release.id', 'variation.release_id')
    .select(['variation.id', 'variation.notes', 'base_words as baseWords', 'wheel_sizes as wheelSizes'])
    .where('release.casting_id', '=', castingId)
    .orderBy('variation.id')
    .execute();

/** What is known of how the factory made a variation, as its owner wrote it; null for one that is gone. */
export const variationSpecification = async (
  db: Kysely<Schema>,
  id: number,
): Promise<{ factorySpecification: string; baseWords: string; wheelSizes: string } | null> =>
  (await db
    .selectFrom('variation')
    .select([
      'factory_specification as factorySpecification',
      'base_words as baseWords',
      'wheel_sizes as wheelSizes',
    ])
    .where('id', '=', id)
    .executeTakeFirst()) ?? null;

/** Keeps what is given of a variation's details. */
export const saveVariationDetails = async (
  trx: Transaction<Schema>,
  id: number,
  { notes, baseWords, wheelSizes }: { [Key in keyof VariationDetails]?: string | undefined },
): Promise<void> => {
  const values = {
    ...(notes !== undefined && { notes }),
    ...(baseWords !== undefined && { base_words: baseWords }),
    ...(wheelSizes !== undefined && { wheel_sizes: wheelSizes }),
  };
  if (Object.keys(values).length > 0)
    await trx.updateTable('variation').set(values).where('id', '=', id).execute();
};

/** Changes a release: its name and year, the part that was changed for it, and notes. */
export const saveRelease = async (
  trx: Transaction<Schema>,
  {
    id,
    name,
    year,
    changedPart,
    notes,
  }: { id: number; name: string; year: number | null; changedPart: string; notes: string },
): Promise<void> => {
  await trx
    .updateTable('release')
    .set({ name, year, changed_part: changedPart, notes })
    .where('id', '=', id)
    .executeTakeFirstOrThrow();
};

/** A series with its maker. */
export interface SeriesDetails {
  id: number;
  name: string;
  firstYear: number | null;
  lastYear: number | null;
  notes: string;
  makerId: number;
  maker: string;
  country: string;
  makerNotes: string;
}

export const listSeries = async (db: Kysely<Schema>): Promise<SeriesDetails[]> => {
  const rows = await db
    .selectFrom('series')
    .innerJoin('maker', 'maker.id', 'series.maker_id')
    .select(['series.id', 'series.name', 'first_year', 'last_year', 'series.notes', 'maker_id'])
    .select(['maker.name as maker', 'country', 'maker.notes as maker_notes'])
    .orderBy('maker.name')
    .orderBy('series.name')
    .execute();
  return rows.map(row => ({
    id: row.id,
    name: row.name,
    firstYear: row.first_year,
    lastYear: row.last_year,
    notes: row.notes,
    makerId: row.maker_id,
    maker: row.maker,
    country: row.country ?? '',
    makerNotes: row.maker_notes,
  }));
};

/** Changes a series and its maker. */
export const saveSeries = async (trx: Transaction<Schema>, series: SeriesDetails): Promise<void> => {
  await trx
    .updateTable('series')
    .set({ name: series.name, first_year: series.firstYear, last_year: series.lastYear, notes: series.notes })
    .where('id', '=', series.id)
    .executeTakeFirstOrThrow();
  await trx
    .updateTable('maker')
    .set({ name: series.maker, country: series.country || null, notes: series.makerNotes })
    .where('id', '=', series.makerId)
    .executeTakeFirstOrThrow();
};

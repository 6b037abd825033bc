import type { Kysely } from 'kysely';
import type { Schema } from '../schema.ts';
import type { CastingPart, FeatureValues } from './reference-details.ts';

type Fields = Readonly<Record<string, string | number | null>>;

/** All that the reference says of its makers, series, castings, releases and variations, each by its id. */
export interface ReferenceSaid {
  maker: ReadonlyMap<number, Fields>;
  series: ReadonlyMap<number, Fields>;
  casting: ReadonlyMap<number, Fields>;
  release: ReadonlyMap<number, Fields>;
  variation: ReadonlyMap<number, Fields>;
  /** Of a casting, in their order. */
  parts: ReadonlyMap<number, CastingPart[]>;
  featureValues: ReadonlyMap<number, FeatureValues[]>;
  /** By the colour's name in lower case. */
  swatches: ReadonlyMap<string, string>;
}

const byId = <Row extends { id: number }>(rows: readonly Row[]): Map<number, Fields> =>
  new Map(rows.map(row => [row.id, row as Fields]));

/** Reads everything that the reference says, for lists that go out whole. */
export const referenceSaid = async (db: Kysely<Schema>): Promise<ReferenceSaid> => {
  const parts = await db
    .selectFrom('casting_part')
    .select(['casting_id', 'part', 'detail', 'look_at as lookAt'])
    .orderBy('position')
    .orderBy('id')
    .execute();
  const values = await db
    .selectFrom('casting_feature')
    .selectAll()
    .orderBy('feature')
    .orderBy('id')
    .execute();
  const featureValues = new Map<number, FeatureValues[]>();
  for (const [castingId, ofCasting] of Map.groupBy(values, row => row.casting_id))
    featureValues.set(
      castingId,
      [...Map.groupBy(ofCasting, row => row.feature)].map(([feature, rows]) => ({
        feature,
        values: rows.map(({ value }) => value),
      })),
    );
  const colours = await db.selectFrom('colour').selectAll().execute();
  return {
    maker: byId(await db.selectFrom('maker').selectAll().execute()),
    series: byId(await db.selectFrom('series').selectAll().execute()),
    casting: byId(await db.selectFrom('casting').selectAll().execute()),
    release: byId(await db.selectFrom('release').selectAll().execute()),
    variation: byId(await db.selectFrom('variation').selectAll().execute()),
    parts: new Map(
      [...Map.groupBy(parts, row => row.casting_id)].map(([castingId, rows]) => [
        castingId,
        rows.map(({ casting_id: _, ...part }) => part),
      ]),
    ),
    featureValues,
    swatches: new Map(colours.map(({ name, swatch }) => [name.toLowerCase(), swatch])),
  };
};

import type { Kysely } from 'kysely';
import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';
import type { Schema } from '../../schema.ts';
import { plain } from '../plain.ts';
import {
  type CastingRecord,
  listCastings,
  listReleases,
  listVariations,
  type ReleaseRecord,
  type VariationRecord,
} from '../reference.ts';
import { partedNames, type SettledName, settledNames, settledVariations } from '../settled-names.ts';

/** A variation as texts are held against it. */
export interface PlainVariation {
  id: number;
  castingId: number;
  releaseId: number;
  features: Record<VariationFeature, string>;
}

/** The rows of the reference by what a text is looked up by, and what the owner has settled. */
export interface ReferenceTables {
  castings: ReadonlyMap<number, CastingRecord>;
  releases: ReadonlyMap<number, ReleaseRecord>;
  variations: readonly VariationRecord[];
  castingsByName: ReadonlyMap<string, CastingRecord[]>;
  releasesByName: ReadonlyMap<string, ReleaseRecord[]>;
  releasesByCasting: ReadonlyMap<number, ReleaseRecord[]>;
  variationsByCasting: ReadonlyMap<number, VariationRecord[]>;
  plainByCasting: ReadonlyMap<number, PlainVariation[]>;
  settledByText: ReadonlyMap<string, SettledName>;
  /** Variations by casting and texts seen, as `seenText` joins them. */
  settledSeen: ReadonlyMap<string, number>;
  /** Pairs of names that the owner has said to be different, by `pairOf`. */
  parted: ReadonlySet<string>;
}

/** Two names in either order. */
export const pairOf = (one: string, other: string): string =>
  [plain(one), plain(other)].sort().join('\u0001');

export const loadTables = async (db: Kysely<Schema>): Promise<ReferenceTables> => {
  const castings = await listCastings(db);
  const releases = await listReleases(db);
  const variations = await listVariations(db);
  const asPlain = variations.map(
    ({ id, castingId, releaseId, features }): PlainVariation => ({
      id,
      castingId,
      releaseId,
      features: Object.fromEntries(
        variationFeatures.map(feature => [feature, plain(features[feature])]),
      ) as Record<VariationFeature, string>,
    }),
  );
  return {
    castings: new Map(castings.map(casting => [casting.id, casting])),
    releases: new Map(releases.map(release => [release.id, release])),
    variations,
    castingsByName: Map.groupBy(castings, casting => plain(casting.name)),
    releasesByName: Map.groupBy(releases, release => plain(release.name)),
    releasesByCasting: Map.groupBy(releases, release => release.castingId),
    variationsByCasting: Map.groupBy(variations, variation => variation.castingId),
    plainByCasting: Map.groupBy(asPlain, variation => variation.castingId),
    settledByText: await settledNames(db),
    settledSeen: await settledVariations(db),
    parted: new Set((await partedNames(db)).map(([one, other]) => pairOf(one, other))),
  };
};

import {
  type CastingRecord,
  colourSwatches,
  listCastings,
  listReleases,
  listVariations,
  type ReleaseRecord,
  type VariationRecord,
} from '../../../db/reference/reference.ts';
import { type VariationLabel, variationLabels } from '../../../db/reference/reference-label.ts';
import { memo } from '../session/memo.ts';

export type IndexedVariation = VariationRecord & VariationLabel & { swatch: string | null };

/** The whole reference in memory: a few thousand variations, looked up by every list of cars and sales. */
export interface ReferenceIndex {
  castings: Map<number, CastingRecord>;
  releases: Map<number, ReleaseRecord>;
  variations: Map<number, IndexedVariation>;
  ofCasting: Map<number, IndexedVariation[]>;
  releasesOf: Map<number, ReleaseRecord[]>;
  /** `#rrggbb` of a colour's name, or null where the owner has chosen none. */
  swatchOf(colour: string): string | null;
}

const groupByCasting = <T extends { castingId: number }>(list: T[]): Map<number, T[]> =>
  Map.groupBy(list, item => item.castingId);

/** The session's reference, read again after it has changed. */
export const referenceIndex = memo<ReferenceIndex>(async ({ db }) => {
  const castings = await listCastings(db);
  const releases = await listReleases(db);
  const swatches = await colourSwatches(db);
  const swatchOf = (colour: string) => swatches.get(colour.trim().toLowerCase()) ?? null;
  const variations: IndexedVariation[] = [];
  for (const group of groupByCasting(await listVariations(db)).values()) {
    const labels = variationLabels(group);
    for (const variation of group)
      variations.push({
        ...variation,
        ...(labels.get(variation.id) ?? { label: '', beyondColour: '' }),
        swatch: swatchOf(variation.features.colour),
      });
  }
  return {
    castings: new Map(castings.map(casting => [casting.id, casting])),
    releases: new Map(releases.map(release => [release.id, release])),
    variations: new Map(variations.map(variation => [variation.id, variation])),
    ofCasting: groupByCasting(variations),
    releasesOf: groupByCasting(releases),
    swatchOf,
  };
});

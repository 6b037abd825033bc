import {
  type CastingRecord,
  listCastings,
  listReleases,
  listVariations,
  type ReleaseRecord,
  type VariationRecord,
} from '../../../db/reference/reference.ts';
import {
  type DataTable,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/**
 * A variation with its release and casting; a release without variations, and a casting without
 * releases, stand alone.
 */
interface ReferenceRow {
  casting: CastingRecord;
  release: ReleaseRecord | null;
  variation: VariationRecord | null;
}

const columns: readonly ListColumn<ReferenceRow>[] = [
  { name: 'maker', width: 24, value: ({ casting }) => textCell(casting.maker) },
  { name: 'series', width: 20, value: ({ casting }) => textCell(casting.series) },
  { name: 'casting', width: 24, value: ({ casting }) => textCell(casting.name) },
  { name: 'release_name', width: 24, value: ({ release }) => textCell(release?.name) },
  { name: 'release_year', width: 12, value: ({ release }) => numberCell(release?.year) },
  ...variationFeatures.map(
    (feature): ListColumn<ReferenceRow> => ({
      name: featureColumns[feature],
      width: 14,
      value: ({ variation }) => textCell(variation?.features[feature]),
    }),
  ),
  { name: 'rarity', width: 12, value: ({ variation }) => textCell(variation?.rarity) },
];

/** Every casting, release and variation of the reference, a variation a row. */
export const referenceTable = async (session: Session): Promise<DataTable> => {
  const { db } = openOf(session).read;
  const variations = Map.groupBy(await listVariations(db), variation => variation.releaseId);
  const releases = Map.groupBy(await listReleases(db), release => release.castingId);
  const rows = (await listCastings(db)).flatMap((casting): ReferenceRow[] => {
    const ofCasting = releases.get(casting.id);
    if (!ofCasting) return [{ casting, release: null, variation: null }];
    return ofCasting.flatMap((release): ReferenceRow[] =>
      (variations.get(release.id) ?? [null]).map(variation => ({ casting, release, variation })),
    );
  });
  return listTable('Reference', columns, rows);
};

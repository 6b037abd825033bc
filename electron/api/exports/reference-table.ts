import type { Kysely } from 'kysely';
import { type DetailOf, detailColumns } from '../../../db/import/reference-details.ts';
import {
  type CastingRecord,
  listCastings,
  listReleases,
  listVariations,
  type ReleaseRecord,
  type VariationRecord,
} from '../../../db/reference/reference.ts';
import { type ReferenceSaid, referenceSaid } from '../../../db/reference/reference-said.ts';
import type { Schema } from '../../../db/schema.ts';
import {
  type DataTable,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/**
 * A variation with its release and casting; a release without variations, and a casting without
 * releases, stand alone.
 */
export interface ReferenceRow {
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

const rowsOf = async (db: Kysely<Schema>): Promise<ReferenceRow[]> => {
  const variations = Map.groupBy(await listVariations(db), variation => variation.releaseId);
  const releases = Map.groupBy(await listReleases(db), release => release.castingId);
  return (await listCastings(db)).flatMap((casting): ReferenceRow[] => {
    const ofCasting = releases.get(casting.id);
    if (!ofCasting) return [{ casting, release: null, variation: null }];
    return ofCasting.flatMap((release): ReferenceRow[] =>
      (variations.get(release.id) ?? [null]).map(variation => ({ casting, release, variation })),
    );
  });
};

const saidCell = (said: string | number | null | undefined) =>
  typeof said === 'number' ? numberCell(said) : textCell(said);

/** Pieces such as "axles: 1.10 mm; wheels: 9.4 mm"; what would part a piece in two is a comma. */
const piecesCell = (pieces: readonly (readonly [of: string, said: string])[]) =>
  textCell(
    pieces
      .filter(([, said]) => said !== '')
      .map(([of, said]) => `${of}: ${said.replaceAll(/ *[;\n]\s*/g, ', ')}`)
      .join('; '),
  );

const valueKey = (castingId: number, feature: VariationFeature, value: string): string =>
  `${castingId} ${feature} ${value.toLowerCase()}`;

/** What is known beside what tells variations apart, in the columns that the reference's import reads. */
const detailsOf = (said: ReferenceSaid, rows: readonly ReferenceRow[]): ListColumn<ReferenceRow>[] => {
  const idOf = ({ casting, release, variation }: ReferenceRow): Record<DetailOf, number | undefined> => ({
    maker: casting.makerId,
    series: casting.seriesId,
    casting: casting.id,
    release: release?.id,
    variation: variation?.id,
  });
  const partsOf = ({ casting }: ReferenceRow) => said.parts.get(casting.id) ?? [];
  // Those of its variations are in their own columns.
  const ofVariations = new Set(
    rows.flatMap(({ casting, variation }) =>
      variation
        ? variationFeatures.map(feature => valueKey(casting.id, feature, variation.features[feature]))
        : [],
    ),
  );
  return [
    ...detailColumns.map(
      ({ name, of, field }): ListColumn<ReferenceRow> => ({
        name,
        width: 20,
        value: row => saidCell(said[of].get(idOf(row)[of] ?? 0)?.[field]),
      }),
    ),
    {
      name: 'parts',
      width: 30,
      value: row => piecesCell(partsOf(row).map(({ part, detail }) => [part, detail] as const)),
    },
    {
      name: 'look_at',
      width: 30,
      value: row => piecesCell(partsOf(row).map(({ part, lookAt }) => [part, lookAt] as const)),
    },
    {
      name: 'feature_values',
      width: 30,
      value: ({ casting }) =>
        piecesCell(
          (said.featureValues.get(casting.id) ?? []).map(
            ({ feature, values }) =>
              [
                featureColumns[feature],
                values
                  .filter(value => !ofVariations.has(valueKey(casting.id, feature, value)))
                  .map(value => value.replaceAll(',', ' '))
                  .join(', '),
              ] as const,
          ),
        ),
    },
    {
      name: 'swatch',
      width: 10,
      value: ({ variation }) => textCell(said.swatches.get(variation?.features.colour.toLowerCase() ?? '')),
    },
  ];
};

/** The rows of the reference with the columns of which anything is known in them. */
export const referenceRows = async (
  session: Session,
): Promise<{ rows: ReferenceRow[]; columns: ListColumn<ReferenceRow>[] }> => {
  const { db } = openOf(session).read;
  const rows = await rowsOf(db);
  const details = detailsOf(await referenceSaid(db), rows);
  return {
    rows,
    columns: [...columns, ...details.filter(({ value }) => rows.some(row => value(row) !== null))],
  };
};

/**
 * Every casting, release and variation of the reference, a variation a row, with all that is known of them:
 * import takes it again. Details of which nothing is known anywhere have no column.
 */
export const referenceTable = async (session: Session): Promise<DataTable> => {
  const { rows, columns: all } = await referenceRows(session);
  return listTable('Reference', all, rows);
};

/** The same for a friend: what tells variations apart, without the owner's notes. */
export const sharedReferenceTable = async (session: Session): Promise<DataTable> =>
  listTable('Reference', columns, await rowsOf(openOf(session).read.db));

import type { Kysely } from 'kysely';
import { groupFeatures } from '../../../valuation/reading/names/group-features.ts';
import type { VariationFeature } from '../../../valuation/words.ts';
import { readTexts } from '../../codec.ts';
import {
  comparableTexts,
  featuresWritten,
  releaseNameWritten,
  seenText,
} from '../../reference/feature-columns.ts';
import { loadReference } from '../../reference/match.ts';
import { plain } from '../../reference/plain.ts';
import type { Schema } from '../../schema.ts';

/** Colours and features that cars and sale records of a casting have, and none of its variations. */
export interface SeenVariation {
  /** Names it among all that were seen. */
  key: string;
  castingId: number;
  /** As they are written first. */
  features: Partial<Record<VariationFeature, string>>;
  releaseName: string;
  releaseYear: string;
  carIds: number[];
  saleIds: number[];
  /** Those that say less, of this alone. */
  lesserCarIds: number[];
  lesserSaleIds: number[];
}

interface SeenRow {
  castingId: number;
  carId?: number;
  saleId?: number;
  written: Record<string, string>;
}

const openRows = async (db: Kysely<Schema>): Promise<SeenRow[]> => {
  const cars = await db
    .selectFrom('car')
    .select(['id', 'casting_id', 'as_written'])
    .where('casting_id', 'is not', null)
    .where('variation_id', 'is', null)
    .where('as_written', '!=', '{}')
    .orderBy('id')
    .execute();
  const sales = await db
    .selectFrom('sale_record')
    .select(['id', 'casting_id', 'as_written'])
    .where('casting_id', 'is not', null)
    .where('variation_id', 'is', null)
    .where('disposal_id', 'is', null)
    .where('as_written', '!=', '{}')
    .orderBy('id')
    .execute();
  return [
    ...cars.map(row => ({
      castingId: row.casting_id ?? 0,
      carId: row.id,
      written: readTexts(row.as_written),
    })),
    ...sales.map(row => ({
      castingId: row.casting_id ?? 0,
      saleId: row.id,
      written: readTexts(row.as_written),
    })),
  ];
};

/**
 * The variations that were seen of each casting and that the reference lacks, those of most cars first
 * within a casting.
 */
export const seenVariations = async (db: Kysely<Schema>): Promise<SeenVariation[]> => {
  const reference = await loadReference(db);
  const names = new Map(
    (await db.selectFrom('casting').select(['id', 'name']).execute()).map(row => [row.id, row.name]),
  );
  const rows = (await openRows(db)).filter(
    ({ castingId, written }) =>
      Object.keys(featuresWritten(written)).length > 0 && !reference.fitsAny(castingId, written),
  );
  const seen: SeenVariation[] = [];
  for (const [castingId, ofCasting] of Map.groupBy(rows, row => row.castingId)) {
    const told = ofCasting.map(row => {
      const said = comparableTexts(row.written, names.get(castingId) ?? '');
      return { row, said, key: `${castingId} ${seenText(said)}` };
    });
    const different = [...Map.groupBy(told, ({ key }) => key).values()];
    const groups = groupFeatures(different.map(([first]) => first?.said ?? {}));
    for (const { fullest, lesser } of groups) {
      const same = different[fullest] ?? [];
      const less = lesser.flatMap(at => different[at] ?? []);
      const [first] = same;
      if (!first) continue;
      seen.push({
        key: first.key,
        castingId,
        features: featuresWritten(first.row.written),
        releaseName: releaseNameWritten(first.row.written, names.get(castingId) ?? ''),
        releaseYear: (first.row.written.release_year ?? '').trim(),
        carIds: same.flatMap(({ row }) => row.carId ?? []),
        saleIds: same.flatMap(({ row }) => row.saleId ?? []),
        lesserCarIds: less.flatMap(({ row }) => row.carId ?? []),
        lesserSaleIds: less.flatMap(({ row }) => row.saleId ?? []),
      });
    }
  }
  const rank = (one: SeenVariation) => one.carIds.length * 1e6 + one.saleIds.length;
  const name = (one: SeenVariation) => plain(names.get(one.castingId) ?? '');
  return seen.sort(
    (a, b) =>
      (name(a) < name(b) ? -1 : name(a) > name(b) ? 1 : a.castingId - b.castingId) ||
      rank(b) - rank(a) ||
      (a.key < b.key ? -1 : 1),
  );
};

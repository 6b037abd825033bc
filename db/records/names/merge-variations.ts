import type { Transaction } from 'kysely';
import { variationFeatures } from '../../../valuation/words.ts';
import { plain } from '../../reference/plain.ts';
import { rowToFeatures } from '../../reference/reference.ts';
import type { Schema } from '../../schema.ts';
import { listSales, updateSale } from '../sales/sales.ts';

/** Both texts, each once; a text that the other holds already is not repeated. */
export const bothTexts = (one: string, other: string): string => {
  if (other.trim() === '' || one.includes(other.trim())) return one;
  return one.trim() === '' || other.includes(one.trim()) ? other : `${one}\n${other}`;
};

/** Sale records of `from` become those of `into`; each keeps being one observation of its own. */
export const moveSales = async (
  trx: Transaction<Schema>,
  from: { castingId: number } | { variationId: number },
  into: { castingId: number; variationId?: number },
): Promise<void> => {
  for (const sale of await listSales(trx, from)) await updateSale(trx, { ...sale, ...into });
};

type Member = { casting_id: number } | { release_id: number } | { variation_id: number };

/** In sets of the owner's, what is gone gives its place to what is kept, once in each set. */
export const moveMembers = async (trx: Transaction<Schema>, from: Member, into: Member): Promise<void> => {
  const [[column, gone]] = Object.entries(from) as [['casting_id' | 'release_id' | 'variation_id', number]];
  const rows = await trx.selectFrom('casting_set_member').selectAll().where(column, '=', gone).execute();
  for (const { id, set_id } of rows) {
    const [[, kept]] = Object.entries(into) as [[string, number]];
    const there = await trx
      .selectFrom('casting_set_member')
      .select('id')
      .where('set_id', '=', set_id)
      .where(column, '=', kept)
      .executeTakeFirst();
    if (there) await trx.deleteFrom('casting_set_member').where('id', '=', id).execute();
    else await trx.updateTable('casting_set_member').set(into).where('id', '=', id).execute();
  }
};

type SettledFor = { casting_id: number } | { variation_id: number };

/**
 * What was settled to mean a variation that is gone, or one of a casting that is gone, means what is kept;
 * once each.
 */
export const moveSettled = async (
  trx: Transaction<Schema>,
  from: SettledFor,
  into: { casting_id: number; variation_id?: number },
): Promise<void> => {
  const [[column, gone]] = Object.entries(from) as [['casting_id' | 'variation_id', number]];
  const rows = await trx.selectFrom('settled_variation').selectAll().where(column, '=', gone).execute();
  for (const { id, seen } of rows) {
    await trx
      .deleteFrom('settled_variation')
      .where('casting_id', '=', into.casting_id)
      .where('seen', '=', seen)
      .where('id', '!=', id)
      .execute();
    await trx.updateTable('settled_variation').set(into).where('id', '=', id).execute();
  }
};

const variationOf = (trx: Transaction<Schema>, id: number) =>
  trx
    .selectFrom('variation')
    .innerJoin('release', 'release.id', 'variation.release_id')
    .selectAll('variation')
    .select('release.casting_id')
    .where('variation.id', '=', id)
    .executeTakeFirstOrThrow();

/** Cars that may be the one may now be the other; a car that may be nothing else is it. */
const moveCandidates = async (
  trx: Transaction<Schema>,
  from: number,
  into: { id: number; release_id: number; casting_id: number },
  at: string,
) => {
  const cars = await trx
    .selectFrom('car_candidate')
    .selectAll()
    .where('variation_id', '=', from)
    .orderBy('id')
    .execute();
  for (const { id, car_id } of cars) {
    const others = await trx
      .selectFrom('car_candidate')
      .select(['id', 'variation_id'])
      .where('car_id', '=', car_id)
      .where('id', '!=', id)
      .execute();
    if (others.some(other => other.variation_id === into.id))
      await trx.deleteFrom('car_candidate').where('id', '=', id).execute();
    else await trx.updateTable('car_candidate').set({ variation_id: into.id }).where('id', '=', id).execute();
    if (others.some(other => other.variation_id !== into.id)) continue;
    await trx.deleteFrom('car_candidate').where('car_id', '=', car_id).execute();
    await trx
      .updateTable('car')
      .set({
        casting_id: into.casting_id,
        release_id: into.release_id,
        variation_id: into.id,
        updated_at: at,
      })
      .where('id', '=', car_id)
      .execute();
  }
};

/**
 * Makes two variations one: cars, candidates, sale records, photographs and beliefs of `from` become those of
 * `into`, which keeps its own features and gains what it lacks. `at` is the instant of the change.
 */
export const mergeVariations = async (
  trx: Transaction<Schema>,
  { into, from }: { into: number; from: number },
  at: string,
): Promise<void> => {
  if (into === from) return;
  const kept = await variationOf(trx, into);
  const gone = await variationOf(trx, from);
  await trx
    .updateTable('car')
    .set({ variation_id: into, release_id: kept.release_id, casting_id: kept.casting_id, updated_at: at })
    .where('variation_id', '=', from)
    .execute();
  await moveCandidates(trx, from, kept, at);
  await moveSales(trx, { variationId: from }, { castingId: kept.casting_id, variationId: into });
  await trx.updateTable('photo').set({ variation_id: into }).where('variation_id', '=', from).execute();
  await trx.updateTable('belief').set({ variation_id: into }).where('variation_id', '=', from).execute();
  await moveMembers(trx, { variation_id: from }, { variation_id: into });
  await moveSettled(trx, { variation_id: from }, { casting_id: kept.casting_id, variation_id: into });
  await trx.deleteFrom('variation').where('id', '=', from).execute();
  await trx
    .updateTable('variation')
    .set({
      rarity: kept.rarity ?? gone.rarity,
      factory_specification: bothTexts(kept.factory_specification, gone.factory_specification),
      notes: bothTexts(kept.notes, gone.notes),
      base_words: bothTexts(kept.base_words, gone.base_words),
      wheel_sizes: bothTexts(kept.wheel_sizes, gone.wheel_sizes),
    })
    .where('id', '=', into)
    .execute();
};

const identityOf = (row: Parameters<typeof rowToFeatures>[0]): string => {
  const features = rowToFeatures(row);
  return variationFeatures.map(feature => plain(features[feature])).join('\u0001');
};

/** The variations of a release, each with all that tells it apart as one text. */
export const variationsByIdentity = async (
  trx: Transaction<Schema>,
  releaseId: number,
): Promise<{ id: number; identity: string }[]> => {
  const rows = await trx
    .selectFrom('variation')
    .selectAll()
    .where('release_id', '=', releaseId)
    .orderBy('id')
    .execute();
  return rows.map(row => ({ id: row.id, identity: identityOf(row) }));
};

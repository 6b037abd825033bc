import type { Selectable, Transaction } from 'kysely';
import { plain } from '../../reference/plain.ts';
import { rememberNames } from '../../reference/settled-names.ts';
import type { Schema } from '../../schema.ts';
import { type Followed, followReference } from './follow-reference.ts';
import {
  bothTexts,
  mergeVariations,
  moveMembers,
  moveSales,
  moveSettled,
  variationsByIdentity,
} from './merge-variations.ts';

/**
 * Makes two releases of one casting one: variations of `from` that are equal to one of `into` are joined with
 * it, the others move. `at` is the instant of the change.
 */
export const mergeReleases = async (
  trx: Transaction<Schema>,
  { into, from }: { into: number; from: number },
  at: string,
): Promise<void> => {
  if (into === from) return;
  const find = (id: number) =>
    trx.selectFrom('release').selectAll().where('id', '=', id).executeTakeFirstOrThrow();
  const kept = await find(into);
  const gone = await find(from);
  const there = new Map<string, number>();
  for (const { id, identity } of await variationsByIdentity(trx, into))
    if (!there.has(identity)) there.set(identity, id);
  for (const { id, identity } of await variationsByIdentity(trx, from)) {
    const same = there.get(identity);
    if (same !== undefined) {
      await mergeVariations(trx, { into: same, from: id }, at);
      continue;
    }
    await trx.updateTable('variation').set({ release_id: into }).where('id', '=', id).execute();
    there.set(identity, id);
  }
  await trx
    .updateTable('car')
    .set({ release_id: into, casting_id: kept.casting_id, updated_at: at })
    .where('release_id', '=', from)
    .execute();
  await trx
    .updateTable('settled_name')
    .set({ release_id: into, casting_id: kept.casting_id })
    .where('release_id', '=', from)
    .execute();
  await moveMembers(trx, { release_id: from }, { release_id: into });
  await trx.deleteFrom('release').where('id', '=', from).execute();
  await trx
    .updateTable('release')
    .set({
      year: kept.year ?? gone.year,
      changed_part: bothTexts(kept.changed_part, gone.changed_part),
      notes: bothTexts(kept.notes, gone.notes),
    })
    .where('id', '=', into)
    .execute();
};

type Casting = Selectable<Schema['casting']>;

/** A release goes to the casting: to one of the same name and year where there is one. */
const moveRelease = async (
  trx: Transaction<Schema>,
  release: Selectable<Schema['release']>,
  into: number,
  name: string,
  at: string,
) => {
  const there = await trx
    .selectFrom('release')
    .selectAll()
    .where('casting_id', '=', into)
    .orderBy('id')
    .execute();
  const same = there.find(one => plain(one.name) === plain(name) && one.year === release.year);
  if (!same) {
    await trx.updateTable('release').set({ casting_id: into, name }).where('id', '=', release.id).execute();
    await trx
      .updateTable('settled_name')
      .set({ casting_id: into })
      .where('release_id', '=', release.id)
      .execute();
  } else await mergeReleases(trx, { into: same.id, from: release.id }, at);
};

const movePartsAndFeatures = async (trx: Transaction<Schema>, into: number, from: number) => {
  const partsOf = (id: number) =>
    trx.selectFrom('casting_part').selectAll().where('casting_id', '=', id).orderBy('id').execute();
  const kept = await partsOf(into);
  for (const part of await partsOf(from)) {
    const same = kept.find(one => one.part === part.part);
    if (!same) {
      await trx.updateTable('casting_part').set({ casting_id: into }).where('id', '=', part.id).execute();
      continue;
    }
    await trx.deleteFrom('casting_part').where('id', '=', part.id).execute();
    const both = {
      detail: bothTexts(same.detail, part.detail),
      look_at: bothTexts(same.look_at, part.look_at),
    };
    if (both.detail !== same.detail || both.look_at !== same.look_at)
      await trx.updateTable('casting_part').set(both).where('id', '=', same.id).execute();
  }
  const featuresOf = (id: number) =>
    trx.selectFrom('casting_feature').selectAll().where('casting_id', '=', id).orderBy('id').execute();
  const known = new Set((await featuresOf(into)).map(({ feature, value }) => `${feature} ${plain(value)}`));
  for (const { id, feature, value } of await featuresOf(from)) {
    const entry = `${feature} ${plain(value)}`;
    if (known.has(entry)) await trx.deleteFrom('casting_feature').where('id', '=', id).execute();
    else await trx.updateTable('casting_feature').set({ casting_id: into }).where('id', '=', id).execute();
    known.add(entry);
  }
};

const joined = (kept: Casting, gone: Casting) => ({
  body_type: kept.body_type || gone.body_type,
  first_year: kept.first_year ?? gone.first_year,
  length_mm: kept.length_mm ?? gone.length_mm,
  materials: bothTexts(kept.materials, gone.materials),
  markings: bothTexts(kept.markings, gone.markings),
  notes: bothTexts(kept.notes, gone.notes),
  assembly: bothTexts(kept.assembly, gone.assembly),
  bearings: kept.bearings || gone.bearings,
});

/**
 * Makes two castings one, with everything that hangs on them. Releases under the name of `from` take the name
 * of `into`, unless `keepName`: then it was another name of the same tooling. That name stays known as a
 * spelling. `at` is the instant of the change.
 */
export const mergeCastings = async (
  trx: Transaction<Schema>,
  { into, from, keepName }: { into: number; from: number; keepName: boolean },
  at: string,
): Promise<Followed> => {
  const find = (id: number) =>
    trx.selectFrom('casting').selectAll().where('id', '=', id).executeTakeFirstOrThrow();
  const kept = await find(into);
  const gone = await find(from);
  const releases = await trx
    .selectFrom('release')
    .selectAll()
    .where('casting_id', '=', from)
    .orderBy('id')
    .execute();
  for (const release of releases) {
    const isNamedSo = plain(release.name) === plain(gone.name);
    await moveRelease(trx, release, into, isNamedSo && !keepName ? kept.name : release.name, at);
  }
  await movePartsAndFeatures(trx, into, from);
  await trx
    .updateTable('car')
    .set({ casting_id: into, updated_at: at })
    .where('casting_id', '=', from)
    .execute();
  await moveSales(trx, { castingId: from }, { castingId: into });
  await trx.updateTable('belief').set({ casting_id: into }).where('casting_id', '=', from).execute();
  await trx.updateTable('settled_name').set({ casting_id: into }).where('casting_id', '=', from).execute();
  await trx.updateTable('part').set({ casting_id: into }).where('casting_id', '=', from).execute();
  await moveMembers(trx, { casting_id: from }, { casting_id: into });
  await moveSettled(trx, { casting_id: from }, { casting_id: into });
  if (plain(gone.name) !== plain(kept.name))
    await rememberNames(trx, [gone.name], { means: 'casting', castingId: into, releaseId: null }, at);
  await trx.deleteFrom('casting').where('id', '=', from).execute();
  await trx.updateTable('casting').set(joined(kept, gone)).where('id', '=', into).execute();
  const open = async (table: 'car' | 'sale_record') => {
    const rows = await trx
      .selectFrom(table)
      .select('id')
      .where('casting_id', '=', into)
      .where('variation_id', 'is', null)
      .execute();
    return rows.map(({ id }) => id);
  };
  return followReference(trx, { carIds: await open('car'), saleIds: await open('sale_record') }, at);
};

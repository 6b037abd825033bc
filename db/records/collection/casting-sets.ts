import type { Kysely, Transaction } from 'kysely';
import type { Schema } from '../../schema.ts';

/** Castings that belong together for their collector, such as those of one year. */
export interface CastingSet {
  id: number;
  name: string;
  /** In their order. */
  castingIds: number[];
}

/** All sets, by name, or the one of this id. */
export const listCastingSets = async (db: Kysely<Schema>, id?: number): Promise<CastingSet[]> => {
  const sets = await db
    .selectFrom('casting_set')
    .select(['id', 'name'])
    .$if(id !== undefined, query => query.where('id', '=', id ?? 0))
    .orderBy('name')
    .execute();
  const members = await db
    .selectFrom('casting_set_member')
    .select(['set_id', 'casting_id'])
    .$if(id !== undefined, query => query.where('set_id', '=', id ?? 0))
    .where('casting_id', 'is not', null)
    .orderBy('position')
    .orderBy('id')
    .execute();
  const ofSet = Map.groupBy(members, ({ set_id }) => set_id);
  return sets.map(set => ({
    ...set,
    castingIds: (ofSet.get(set.id) ?? []).flatMap(({ casting_id }) => casting_id ?? []),
  }));
};

/** Makes an empty set. Returns its id. */
export const insertCastingSet = async (
  trx: Transaction<Schema>,
  { name, at }: { name: string; at: string },
): Promise<number> => {
  const row = await trx
    .insertInto('casting_set')
    .values({ name, made_at: at })
    .returning('id')
    .executeTakeFirstOrThrow();
  return row.id;
};

/** Gives a set these castings in this order, each once; what it had beside castings stays. */
export const setCastingsOf = async (
  trx: Transaction<Schema>,
  id: number,
  castingIds: readonly number[],
): Promise<void> => {
  await trx
    .deleteFrom('casting_set_member')
    .where('set_id', '=', id)
    .where('casting_id', 'is not', null)
    .execute();
  for (const [position, castingId] of [...new Set(castingIds)].entries())
    await trx
      .insertInto('casting_set_member')
      .values({ set_id: id, position, casting_id: castingId })
      .execute();
};

/** Gives a set another name, which no other set may have. */
export const renameCastingSet = async (trx: Transaction<Schema>, id: number, name: string): Promise<void> => {
  await trx.updateTable('casting_set').set({ name }).where('id', '=', id).execute();
};

/** Removes a set; castings and cars stay. */
export const removeCastingSet = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('casting_set').where('id', '=', id).execute();
};

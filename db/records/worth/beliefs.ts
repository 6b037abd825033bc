import type { Kysely, Selectable, Transaction } from 'kysely';
import type { Belief } from '../../../valuation/types.ts';
import { gradeToHalf, halfToGrade } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** A belief with what its owner noted of it. */
export type StoredBelief = Belief & { note: string };

/** A belief as its row keeps it, read. */
export const rowToBelief = (row: Selectable<Schema['belief']>): StoredBelief => ({
  id: row.id,
  level: row.series_id !== null ? 'series' : row.casting_id !== null ? 'casting' : 'variation',
  of: row.series_id ?? row.casting_id ?? row.variation_id ?? 0,
  grade: halfToGrade(row.grade_half),
  finishState: row.finish_state,
  low: row.low_minor,
  high: row.high_minor,
  currency: row.currency,
  believedOn: row.believed_on,
  note: row.note,
});

/** The columns of a belief. */
export const beliefToRow = (belief: Omit<StoredBelief, 'id'>) => ({
  series_id: belief.level === 'series' ? belief.of : null,
  casting_id: belief.level === 'casting' ? belief.of : null,
  variation_id: belief.level === 'variation' ? belief.of : null,
  grade_half: gradeToHalf(belief.grade),
  finish_state: belief.finishState,
  low_minor: belief.low,
  high_minor: belief.high,
  currency: belief.currency,
  believed_on: belief.believedOn,
  note: belief.note,
});

/** All beliefs, in the order in which they were entered. */
export const listBeliefs = async (db: Kysely<Schema>): Promise<StoredBelief[]> =>
  (await db.selectFrom('belief').selectAll().orderBy('id').execute()).map(rowToBelief);

/** One belief, or undefined. */
export const findBelief = async (db: Kysely<Schema>, id: number): Promise<StoredBelief | undefined> => {
  const row = await db.selectFrom('belief').selectAll().where('id', '=', id).executeTakeFirst();
  return row && rowToBelief(row);
};

/**
 * Adds beliefs; one about the same thing at the same grade and finish takes the place of the older.
 * Returns the id of each.
 */
export const saveBeliefs = async (
  trx: Transaction<Schema>,
  beliefs: readonly Omit<StoredBelief, 'id'>[],
): Promise<number[]> => {
  const ids: number[] = [];
  for (const belief of beliefs) {
    const { series_id, casting_id, variation_id, ...row } = beliefToRow(belief);
    const about = { series_id, casting_id, variation_id };
    const same = await trx
      .selectFrom('belief')
      .select('id')
      .where('series_id', 'is', series_id)
      .where('casting_id', 'is', casting_id)
      .where('variation_id', 'is', variation_id)
      .where('grade_half', '=', row.grade_half)
      .where('finish_state', '=', row.finish_state)
      .executeTakeFirst();
    if (same) {
      await trx.updateTable('belief').set(row).where('id', '=', same.id).execute();
      ids.push(same.id);
    } else {
      const { id } = await trx
        .insertInto('belief')
        .values({ ...about, ...row })
        .returning('id')
        .executeTakeFirstOrThrow();
      ids.push(id);
    }
  }
  return ids;
};

/** Changes a belief to what is given. */
export const updateBelief = async (trx: Transaction<Schema>, belief: StoredBelief): Promise<void> => {
  await trx
    .updateTable('belief')
    .set(beliefToRow(belief))
    .where('id', '=', belief.id)
    .executeTakeFirstOrThrow();
};

/** Removes beliefs. */
export const removeBeliefs = async (trx: Transaction<Schema>, ids: readonly number[]): Promise<void> => {
  await trx.deleteFrom('belief').where('id', 'in', ids).execute();
};

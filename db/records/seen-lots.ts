import type { Kysely } from 'kysely';
import type { Schema } from '../schema.ts';

/**
 * The lots that were only seen: bid for, with neither a day of purchase nor costs. Their cars do not belong to
 * the owner until the lot is bought.
 */
export const seenLots = (db: Kysely<Schema>) =>
  db
    .selectFrom('lot')
    .select('lot.id')
    .where('lot.bid', '!=', '')
    .where('lot.bought_on', 'is', null)
    .where(eb =>
      eb.not(
        eb.exists(eb.selectFrom('lot_cost').select('lot_cost.id').whereRef('lot_cost.lot_id', '=', 'lot.id')),
      ),
    );

/** The ids of the lots that were only seen. */
export const readSeenLots = async (db: Kysely<Schema>): Promise<ReadonlySet<number>> =>
  new Set((await seenLots(db).execute()).map(({ id }) => id));

/** The ids of the cars of lots that were only seen; sold ones are not among them. */
export const seenCarIds = async (db: Kysely<Schema>): Promise<number[]> =>
  (
    await db
      .selectFrom('car')
      .select('id')
      .where('status', '!=', 'sold')
      .where('lot_id', 'in', seenLots(db))
      .execute()
  ).map(({ id }) => id);

/** How many cars of lots that were only seen there are; sold ones are not among them. */
export const countSeenCars = async (db: Kysely<Schema>): Promise<number> =>
  (
    await db
      .selectFrom('car')
      .select(eb => eb.fn.countAll<number>().as('number'))
      .where('status', '!=', 'sold')
      .where('lot_id', 'in', seenLots(db))
      .executeTakeFirstOrThrow()
  ).number;

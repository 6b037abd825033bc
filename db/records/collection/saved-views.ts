import type { Kysely, Transaction } from 'kysely';
import type { Schema } from '../../schema.ts';

/** How a list is looked at, under a name; `body` is what was chosen, as JSON. */
export interface SavedView {
  id: number;
  name: string;
  body: string;
}

/** The views of a list, by name. */
export const listSavedViews = (db: Kysely<Schema>, list: string): Promise<SavedView[]> =>
  db
    .selectFrom('saved_view')
    .select(['id', 'name', 'body'])
    .where('list', '=', list)
    .orderBy('name')
    .execute();

/** A view with the list that it is of; undefined where there is none. */
export const findSavedView = (
  db: Kysely<Schema>,
  id: number,
): Promise<(SavedView & { list: string }) | undefined> =>
  db.selectFrom('saved_view').select(['id', 'name', 'body', 'list']).where('id', '=', id).executeTakeFirst();

/** Saves a view; one of the same list and name gives way. Returns its id. */
export const saveView = async (
  trx: Transaction<Schema>,
  { list, name, body, at }: Omit<SavedView, 'id'> & { list: string; at: string },
): Promise<number> => {
  const same = await trx
    .selectFrom('saved_view')
    .select('id')
    .where('list', '=', list)
    .where('name', '=', name)
    .executeTakeFirst();
  if (same) {
    await trx.updateTable('saved_view').set({ name, body }).where('id', '=', same.id).execute();
    return same.id;
  }
  const row = await trx
    .insertInto('saved_view')
    .values({ list, name, body, made_at: at })
    .returning('id')
    .executeTakeFirstOrThrow();
  return row.id;
};

/** Gives a view another name, which no other view of its list may have. */
export const renameView = async (trx: Transaction<Schema>, id: number, name: string): Promise<void> => {
  await trx.updateTable('saved_view').set({ name }).where('id', '=', id).execute();
};

/** Removes a view; what it showed stays. */
export const removeView = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('saved_view').where('id', '=', id).execute();
};

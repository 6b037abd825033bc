import { AsyncLocalStorage } from 'node:async_hooks';
import type { Database } from 'better-sqlite3';
import type { Kysely, Selectable, Transaction } from 'kysely';
import type { Collection } from '../collection.ts';
import { withStorageErrors } from '../errors.ts';
import type { Schema } from '../schema.ts';
import { refreshSearch, searchLater, searchNewRows } from '../search/search-index.ts';
import { noteRanges, trackAllRows, trackOnlyOlderRows } from './tracking.ts';

/** One action of the owner's, newest first in every list. */
export interface HistoryAction {
  id: number;
  label: string;
  at: string;
  undone: boolean;
}

type Work<T> = (trx: Transaction<Schema>) => Promise<T>;

const actions = new AsyncLocalStorage<string>();

/** Runs `work` as the action that is running in a collection's folder, for whatever it calls and awaits. */
const asAction = <T>(dir: string, work: () => Promise<T>): Promise<T> => actions.run(dir, work);

/** Throws when the calling code runs inside an action of this collection. */
export const refuseInsideAction = (dir: string, message: string): void => {
  if (actions.getStore() === dir) throw new Error(message);
};

/** Waiting for an action of its own collection, an action would never end. */
export const refuseNesting = ({ dir }: Collection, label: string): void =>
  refuseInsideAction(
    dir,
    `"${label}" was started inside another action; pass that action's transaction on instead`,
  );

const beginChange = (sqlite: Database, label: string, at: string): number => {
  const { lastInsertRowid } = sqlite
    .prepare('INSERT INTO change (label, made_at) VALUES (?, ?)')
    .run(label, at);
  sqlite.prepare('INSERT INTO current_change VALUES (?)').run(lastInsertRowid);
  return Number(lastInsertRowid);
};

/**
 * Ends the current action. One that changed nothing leaves no entry; any other discards what could
 * have been redone.
 */
const endChange = (sqlite: Database, id: number): void => {
  sqlite.exec('DELETE FROM current_change');
  sqlite
    .prepare('DELETE FROM change_row WHERE change_id = ? AND before IS after AND before IS NOT NULL')
    .run(id);
  const noted = sqlite.prepare('SELECT 1 FROM change_row WHERE change_id = ? LIMIT 1').get(id);
  if (noted) sqlite.exec('DELETE FROM change WHERE undone = 1');
  else sqlite.prepare('DELETE FROM change WHERE id = ?').run(id);
};

/** One transaction with one entry in history; `write` does the work, with the number of the entry. */
const inOneChange = <T>(
  { dir, write: { db, sqlite } }: Collection,
  label: string,
  at: string,
  write: (trx: Transaction<Schema>, change: number) => Promise<T>,
): Promise<T> =>
  withStorageErrors(dir, () =>
    db.transaction().execute(trx =>
      asAction(dir, async () => {
        const change = beginChange(sqlite, label, at);
        const result = await write(trx, change);
        refreshSearch(sqlite);
        endChange(sqlite, change);
        return result;
      }),
    ),
  );

/**
 * Runs `work` as one action: one transaction, one entry in history, one undo. A failure takes everything
 * back, entry included. Writers get `trx`; inside, `collection.read` would show the state before the action,
 * and another action started inside throws. Storage errors come as CollectionError.
 */
export const runAction = async <T>(
  collection: Collection,
  label: string,
  at: string,
  work: Work<T>,
): Promise<T> => {
  refuseNesting(collection, label);
  return inOneChange(collection, label, at, work);
};

/**
 * Like runAction, for thousands of rows (an import, the demo, revaluing everything): new rows are kept in
 * history as ranges and their words go into the search index at the end, which is many times faster. Changes
 * to rows that were there before are noted one by one as ever.
 */
export const runBulk = async <T>(
  collection: Collection,
  label: string,
  at: string,
  work: Work<T>,
): Promise<T> => {
  refuseNesting(collection, label);
  const { sqlite } = collection.write;
  return inOneChange(collection, label, at, async (trx, change) => {
    searchLater(sqlite);
    trackOnlyOlderRows(sqlite);
    const outcome = await work(trx);
    searchNewRows(sqlite, change);
    noteRanges(sqlite, change);
    trackAllRows(sqlite);
    return outcome;
  });
};

const rowToAction = (row: Selectable<Schema['change']>): HistoryAction => ({
  id: row.id,
  label: row.label,
  at: row.made_at,
  undone: row.undone === 1,
});

/** The newest actions first, undone ones included. */
export const listHistory = async (db: Kysely<Schema>, limit = 100): Promise<HistoryAction[]> => {
  const rows = await db.selectFrom('change').selectAll().orderBy('id', 'desc').limit(limit).execute();
  return rows.map(rowToAction);
};

/** The newest actions that touched any of these rows, such as a car and its condition checks. */
export const historyOfRows = async (
  db: Kysely<Schema>,
  rows: { table: keyof Schema; ids: number[] }[],
  limit = 100,
): Promise<HistoryAction[]> => {
  const touched = rows.flatMap(({ table, ids }) => ids.map(id => ({ table, id })));
  if (touched.length === 0) return [];
  const found = await db
    .selectFrom('change')
    .selectAll()
    .where('id', 'in', changed =>
      changed
        .selectFrom('change_row')
        .select('change_id')
        .where(where =>
          where.or(
            touched.map(({ table, id }) =>
              where.and([
                where('table_name', '=', table),
                where('row_id', '<=', id),
                where(where.fn.coalesce('last_row_id', 'row_id'), '>=', id),
              ]),
            ),
          ),
        ),
    )
    .orderBy('id', 'desc')
    .limit(limit)
    .execute();
  return found.map(rowToAction);
};

/** Actions that can be undone, and rows noted for them, before the oldest are forgotten. */
const mostActions = 1_000;
const mostRows = 300_000;

/**
 * Forgets the oldest actions beyond what history keeps, at opening, so that no action waits for it. The
 * newest action stays whatever its size.
 */
export const pruneHistory = (sqlite: Database, { actions = mostActions, rows = mostRows } = {}): void => {
  const newest = sqlite.prepare('SELECT max(id) FROM change').pluck();
  const byActions = sqlite.prepare('SELECT id FROM change ORDER BY id DESC LIMIT 1 OFFSET ?').pluck();
  const byRows = sqlite.prepare('SELECT change_id FROM change_row ORDER BY id DESC LIMIT 1 OFFSET ?').pluck();
  const last = Math.max(Number(byActions.get(actions) ?? 0), Number(byRows.get(rows) ?? 0));
  if (last === 0) return;
  sqlite.prepare('DELETE FROM change WHERE id <= ?').run(Math.min(last, Number(newest.get()) - 1));
};

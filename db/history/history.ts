import type { Database } from 'better-sqlite3';
import type { Kysely, Selectable, Transaction } from 'kysely';
import type { Collection } from '../collection.ts';
import { withStorageErrors } from '../errors.ts';
import type { Schema } from '../schema.ts';
import { pauseSearch, resumeSearchRebuilt, resumeSearchWithNewRows } from '../search/search-index.ts';
import { asAction, refuseInsideAction } from './running.ts';
import { trackAllRows, trackedTables, trackOnlyOlderRows } from './tracking.ts';

/** One action of the owner's, newest first in every list. */
export interface HistoryAction {
  id: number;
  label: string;
  at: string;
  undone: boolean;
}

type Work<T> = (trx: Transaction<Schema>) => Promise<T>;

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

/** Ends the current action. One that changed nothing leaves no entry; any other discards what could have been redone. */
const endChange = (sqlite: Database, id: number): void => {
  sqlite.exec('DELETE FROM current_change');
  sqlite
    .prepare('DELETE FROM change_row WHERE change_id = ? AND before IS after AND before IS NOT NULL')
    .run(id);
  const kept = sqlite.prepare('SELECT 1 FROM change_row WHERE change_id = ? LIMIT 1').get(id);
  if (kept) sqlite.exec('DELETE FROM change WHERE undone = 1');
  else sqlite.prepare('DELETE FROM change WHERE id = ?').run(id);
};

/**
 * Runs `work` as one action: one transaction, one entry in history, one undo. A failure takes everything back, entry
 * included. Writers get `trx`; inside, `collection.db` would show the state before the action, and another action
 * started inside throws. Storage errors come as CollectionError.
 */
export const runAction = async <T>(
  collection: Collection,
  label: string,
  at: string,
  work: Work<T>,
): Promise<T> => {
  refuseNesting(collection, label);
  return withStorageErrors(collection.dir, () =>
    collection.writer.transaction().execute(trx =>
      asAction(collection.dir, async () => {
        const id = beginChange(collection.sqlite, label, at);
        const result = await work(trx);
        endChange(collection.sqlite, id);
        return result;
      }),
    ),
  );
};

/** Notes which rows each table has gained since bulk work began. */
const noteRanges = (sqlite: Database, id: number): void => {
  for (const table of trackedTables(sqlite))
    sqlite
      .prepare(
        `INSERT INTO change_row (change_id, table_name, row_id, last_row_id)
         SELECT ?, ?, min(t.id), max(t.id) FROM main."${table.name}" t
         WHERE t.id > (SELECT last_id FROM bulk_start WHERE table_name = ?) HAVING count(*) > 0`,
      )
      .run(id, table.name, table.name);
};

/** True when bulk work touched words that older documents carry: a changed older row, a new name of an older casting. */
const touchedOlderWords = (sqlite: Database, id: number): boolean =>
  sqlite
    .prepare(
      `SELECT 1 FROM change_row WHERE change_id = ?
       UNION ALL SELECT 1 FROM release
       WHERE id > (SELECT last_id FROM bulk_start WHERE table_name = 'release')
         AND casting_id <= (SELECT last_id FROM bulk_start WHERE table_name = 'casting') LIMIT 1`,
    )
    .get(id) !== undefined;

/**
 * Like runAction, for thousands of rows (an import, the demo, revaluing everything): new rows are kept in history as
 * ranges and the search index is rebuilt at the end, which is many times faster. Changes to rows that were there before
 * are noted one by one as ever.
 */
export const runBulk = async <T>(
  collection: Collection,
  label: string,
  at: string,
  work: Work<T>,
): Promise<T> => {
  refuseNesting(collection, label);
  const { sqlite } = collection;
  return withStorageErrors(collection.dir, () =>
    collection.writer.transaction().execute(trx =>
      asAction(collection.dir, async () => {
        pauseSearch(sqlite);
        trackOnlyOlderRows(sqlite);
        const id = beginChange(sqlite, label, at);
        const result = await work(trx);
        if (touchedOlderWords(sqlite, id)) resumeSearchRebuilt(sqlite);
        else resumeSearchWithNewRows(sqlite);
        noteRanges(sqlite, id);
        endChange(sqlite, id);
        trackAllRows(sqlite);
        return result;
      }),
    ),
  );
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

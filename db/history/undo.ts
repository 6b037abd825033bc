import type { Database } from 'better-sqlite3';
import type { Collection } from '../collection.ts';
import { CollectionError, withStorageErrors } from '../errors.ts';
import { refreshSearch } from '../search/search-index.ts';
import { refuseNesting } from './history.ts';
import { rowAsJson, type TrackedTable, trackedTables } from './tracking.ts';

/** A noted change of one row; a null side is a row that was not there. */
interface NotedChange {
  table_name: string;
  before: string | null;
  after: string | null;
}

const columnList = (table: TrackedTable) => table.columns.map(column => `"${column.name}"`).join(', ');
const valuesOf = (table: TrackedTable, json: string) =>
  table.columns.map(column => `json_extract(${json}, '$.${column.name}')`).join(', ');

/** Statements that turn one row from one state into another, prepared once per table. */
const rowTurner = (sqlite: Database, table: TrackedTable) => {
  const name = `main."${table.name}"`;
  const remove = sqlite.prepare(`DELETE FROM ${name} WHERE id = json_extract(?, '$.id')`);
  const insert = sqlite.prepare(
    `INSERT INTO ${name} (${columnList(table)}) SELECT ${valuesOf(table, '@row')}`,
  );
  const update = sqlite.prepare(
    `UPDATE ${name} SET (${columnList(table)}) = (SELECT ${valuesOf(table, '@to')}) WHERE id = json_extract(@from, '$.id')`,
  );
  return (from: string | null, to: string | null): void => {
    if (from === null) insert.run({ row: to });
    else if (to === null) remove.run(from);
    else update.run({ from, to });
  };
};

const turnNotedChanges = (sqlite: Database, tables: Map<string, TrackedTable>, id: number, back: boolean) => {
  const turners = new Map<string, ReturnType<typeof rowTurner>>();
  const rows = sqlite
    .prepare(
      `SELECT table_name, before, after FROM change_row WHERE change_id = ? AND last_row_id IS NULL
       ORDER BY id ${back ? 'DESC' : 'ASC'}`,
    )
    .all(id) as NotedChange[];
  for (const { table_name, before, after } of rows) {
    const turn = turners.get(table_name) ?? rowTurner(sqlite, tables.get(table_name)!);
    turners.set(table_name, turn);
    if (back) turn(after, before);
    else turn(before, after);
  }
};

const rangeTables = (sqlite: Database, id: number) =>
  sqlite
    .prepare(
      `SELECT table_name AS name, row_id AS first, last_row_id AS last FROM change_row
       WHERE change_id = ? AND last_row_id IS NOT NULL AND after IS NULL`,
    )
    .all(id) as { name: string; first: number; last: number }[];

/** Takes bulk rows out, keeping each as JSON so that the action can be redone. */
const takeOutRanges = (sqlite: Database, tables: Map<string, TrackedTable>, id: number) => {
  for (const { name, first, last } of rangeTables(sqlite, id)) {
    sqlite
      .prepare(
        `INSERT INTO change_row (change_id, table_name, row_id, last_row_id, after)
         SELECT ?, ?, id, id, ${rowAsJson(tables.get(name)!, 't')} FROM main."${name}" t WHERE id BETWEEN ? AND ?`,
      )
      .run(id, name, first, last);
    sqlite.prepare(`DELETE FROM main."${name}" WHERE id BETWEEN ? AND ?`).run(first, last);
  }
};

const putBackRanges = (sqlite: Database, tables: Map<string, TrackedTable>, id: number) => {
  const kept = 'change_id = ? AND table_name = ? AND last_row_id IS NOT NULL AND after IS NOT NULL';
  for (const { name } of rangeTables(sqlite, id)) {
    const table = tables.get(name)!;
    sqlite
      .prepare(
        `INSERT INTO main."${name}" (${columnList(table)})
         SELECT ${valuesOf(table, 'after')} FROM change_row WHERE ${kept} ORDER BY row_id`,
      )
      .run(id, name);
    sqlite.prepare(`DELETE FROM change_row WHERE ${kept}`).run(id, name);
  }
};

const refuseBrokenReferences = (sqlite: Database, label: string) => {
  const broken = sqlite.pragma('foreign_key_check') as unknown[];
  if (broken.length > 0) throw new Error(`"${label}" cannot be undone: ${broken.length} rows still need it`);
};

/**
 * Turns one whole action. Row by row in exact reverse, deferred references suffice; a bulk action's rows come
 * and go all at once, so references are off meanwhile (or a delete could cascade into older rows) and are all
 * checked at the end.
 */
const turn = (sqlite: Database, id: number, label: string, back: boolean) => {
  const tables = new Map(trackedTables(sqlite).map(table => [table.name, table]));
  const bulk = rangeTables(sqlite, id).length > 0;
  if (!bulk) {
    sqlite.pragma('defer_foreign_keys = ON');
    turnNotedChanges(sqlite, tables, id, back);
  } else {
    if (back) takeOutRanges(sqlite, tables, id);
    turnNotedChanges(sqlite, tables, id, back);
    if (!back) putBackRanges(sqlite, tables, id);
    refuseBrokenReferences(sqlite, label);
  }
  refreshSearch(sqlite);
  sqlite.prepare('UPDATE change SET undone = ? WHERE id = ?').run(back ? 1 : 0, id);
};

/** An action that was taken back or done again. */
export interface Replayed {
  id: number;
  label: string;
}

const replay = (collection: Collection, back: boolean): Promise<Replayed> => {
  const { sqlite } = collection.write;
  refuseNesting(collection, back ? 'Undo' : 'Redo');
  return withStorageErrors(collection.dir, () =>
    collection.write.db.connection().execute(async connection => {
      const next = sqlite
        .prepare(
          back
            ? 'SELECT id, label FROM change WHERE undone = 0 ORDER BY id DESC LIMIT 1'
            : 'SELECT id, label FROM change WHERE undone = 1 ORDER BY id LIMIT 1',
        )
        .get() as { id: number; label: string } | undefined;
      if (!next) throw new CollectionError({ kind: back ? 'nothing-to-undo' : 'nothing-to-redo' });
      // Inside a transaction SQLite ignores this setting, so it is made around it.
      if (rangeTables(sqlite, next.id).length > 0) sqlite.pragma('foreign_keys = OFF');
      try {
        await connection.transaction().execute(async () => turn(sqlite, next.id, next.label, back));
      } finally {
        sqlite.pragma('foreign_keys = ON');
      }
      return next;
    }),
  );
};

/** Takes back the newest action that is not undone, whole. Throws CollectionError 'nothing-to-undo'. */
export const undo = (collection: Collection): Promise<Replayed> => replay(collection, true);

/** Does again the action undone last, whole. Throws CollectionError 'nothing-to-undo'. */
export const redo = (collection: Collection): Promise<Replayed> => replay(collection, false);

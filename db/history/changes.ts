import type { Database } from 'better-sqlite3';
import { perSchema } from '../per-schema.ts';
import { settingSource } from '../reads.ts';

/** Actions of history by their numbers, the first and the last. */
export interface Actions {
  first: number;
  last: number;
}

/**
 * What some actions changed, done, undone or done again: in the names that `recordReads` notes, and the cars
 * that they touched.
 */
export interface Changes {
  sources: string[];
  /**
   * Ids of cars of which a row, or a row that hangs on them, is other than before; cars that came and went
   * included.
   */
  cars: Set<number>;
}

interface Reference {
  column: string;
  to: string;
  needed: boolean;
}

const referencesOf = (sqlite: Database, table: string): Reference[] => {
  const needed = new Map(
    (sqlite.pragma(`main.table_info("${table}")`) as { name: string; notnull: 0 | 1 }[]).map(column => [
      column.name,
      column.notnull === 1,
    ]),
  );
  return (sqlite.pragma(`main.foreign_key_list("${table}")`) as { from: string; table: string }[]).map(
    ({ from, table: to }) => ({ column: from, to, needed: needed.get(from) ?? false }),
  );
};

/**
 * The tables whose every row belongs to one car: the cars' own, and each that cannot be without a row of such
 * a table.
 */
export const tablesOfCars = perSchema((sqlite): ReadonlySet<string> => {
  const tables = sqlite
    .prepare("SELECT name FROM main.sqlite_schema WHERE type = 'table'")
    .pluck()
    .all() as string[];
  const found = new Set(['car']);
  for (let before = 0; before < found.size; ) {
    before = found.size;
    for (const table of tables)
      if (referencesOf(sqlite, table).some(({ to, needed }) => needed && found.has(to))) found.add(table);
  }
  return found;
});

const noted = `change_id BETWEEN @first AND @last`;

/** SQL for what a column of a table held before and after, and what it holds in rows that came as a range. */
const valuesOf = (table: string, column: string): string => {
  if (column === 'id')
    return `SELECT row_id FROM change_row WHERE ${noted} AND table_name = '${table}' AND last_row_id IS NULL
      UNION SELECT t.id FROM change_row r JOIN "${table}" t ON t.id BETWEEN r.row_id AND r.last_row_id
      WHERE r.${noted} AND r.table_name = '${table}'
      UNION SELECT row_id FROM change_row WHERE ${noted} AND table_name = '${table}' AND last_row_id IS NOT NULL`;
  const inJson = (side: string) =>
    `SELECT json_extract(${side}, '$.${column}') FROM change_row WHERE ${noted} AND table_name = '${table}' AND ${side} IS NOT NULL`;
  return `${inJson('before')} UNION ${inJson('after')}
    UNION SELECT t."${column}" FROM change_row r JOIN "${table}" t ON t.id BETWEEN r.row_id AND r.last_row_id
    WHERE r.${noted} AND r.table_name = '${table}' AND r.last_row_id IS NOT NULL`;
};

/**
 * SQL for the cars to which rows of a table lead, by every way there is. Rows that went with what they hung
 * on are noted there.
 */
const carsOf = (sqlite: Database, owned: ReadonlySet<string>, table: string): string[] => {
  if (table === 'car') return [valuesOf('car', 'id')];
  const beyond = (to: string, ids: string): string[] =>
    to === 'car'
      ? [ids]
      : referencesOf(sqlite, to)
          .filter(next => owned.has(next.to) && (next.needed || next.to === 'car'))
          .flatMap(next => beyond(next.to, `SELECT "${next.column}" FROM "${to}" WHERE id IN (${ids})`));
  return referencesOf(sqlite, table)
    .filter(({ to, needed }) => to === 'car' || (needed && owned.has(to)))
    .flatMap(({ to, column }) => beyond(to, valuesOf(table, column)));
};

/** What these actions changed. An action that is undone still tells what its undoing changed. */
export const changesOf = (sqlite: Database, actions: Actions): Changes => {
  const tables = sqlite
    .prepare(`SELECT DISTINCT table_name FROM change_row WHERE ${noted}`)
    .pluck()
    .all(actions) as string[];
  const owned = tablesOfCars(sqlite);
  const cars = new Set<number>();
  for (const table of tables)
    for (const ids of carsOf(sqlite, owned, table))
      for (const id of sqlite.prepare(ids).pluck().all(actions) as (number | null)[])
        if (id !== null) cars.add(id);
  const keys = tables.includes('setting')
    ? (sqlite.prepare(valuesOf('setting', 'key')).pluck().all(actions) as string[])
    : [];
  return { sources: [...tables, ...keys.map(settingSource)], cars };
};

/** The number of the newest action, 0 where there is none. */
export const newestAction = (sqlite: Database): number =>
  Number(sqlite.prepare('SELECT coalesce(max(id), 0) FROM change').pluck().get());

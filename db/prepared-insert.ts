import type { Database, Statement } from 'better-sqlite3';
import type { Schema } from './schema.ts';

type Value = string | number | null;

/** What a table says by itself of columns that an insert leaves out, in their order. */
const defaultsOf = (sqlite: Database, table: string, columns: readonly string[]): unknown[] => {
  const said = new Map(
    (sqlite.pragma(`table_info("${table}")`) as { name: string; dflt_value: string | null }[]).map(
      ({ name, dflt_value: said }) => [name, said ?? 'NULL'],
    ),
  );
  return sqlite
    .prepare(`SELECT ${columns.map(column => said.get(column)).join(', ')}`)
    .raw()
    .get() as unknown[];
};

/**
 * Inserts rows of one table: for thousands of rows inside an action. The rows come from the table's own
 * mapper, so that they all have the same columns. Values that are the table's own default are left to it,
 * which takes a quarter less time for a car; rows that leave the same ones share a statement. Returns the
 * new id.
 */
export const preparedInsert = (
  sqlite: Database,
  table: keyof Schema,
): ((row: Record<string, Value>) => number) => {
  let columns: string[] = [];
  let defaults: unknown[] = [];
  /** Values of one row from its last column to its first; these and those of a statement are filled again for each. */
  const backwards: (Value | undefined)[] = [];
  /** By which columns are said, a binary digit for each. */
  const statements = new Map<number, { insert: Statement; values: (Value | undefined)[] }>();
  const prepare = (said: number) => {
    const named = columns.filter((_, i) => Math.floor(said / 2 ** i) % 2 === 1);
    const what =
      named.length > 0 ? `(${named.join(', ')}) VALUES (${named.map(() => '?').join()})` : 'DEFAULT VALUES';
    const made = { insert: sqlite.prepare(`INSERT INTO "${table}" ${what}`), values: named.map(() => null) };
    statements.set(said, made);
    return made;
  };
  return row => {
    if (columns.length === 0) {
      columns = Object.keys(row);
      defaults = defaultsOf(sqlite, table, columns);
    }
    const all = Object.values(row);
    let said = 0;
    let count = 0;
    for (let i = all.length - 1; i >= 0; i--) {
      const value = all[i];
      const isSaid = value !== defaults[i];
      if (isSaid) backwards[count++] = value;
      said = said * 2 + (isSaid ? 1 : 0);
    }
    const { insert, values } = statements.get(said) ?? prepare(said);
    for (let i = 0; i < count; i++) values[i] = backwards[count - 1 - i];
    return Number(insert.run(values).lastInsertRowid);
  };
};

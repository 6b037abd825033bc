import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Database from 'better-sqlite3';

/** What says when or under which number something was stored, and nothing of the collection itself. */
const storing = new Set(['id', 'created_at', 'updated_at', 'made_at', 'added_at', 'identity']);

type Row = Record<string, unknown>;

export interface ContentPart {
  /** These tables alone; all but those of history without it. */
  tables?: readonly string[];
  /** Columns that the way goes without, as "table.column". */
  without?: readonly string[];
  /** Which rows of a table go the way. */
  rows?: Readonly<Record<string, (row: Row) => boolean>>;
}

const tablesOf = (sqlite: Database.Database): string[] =>
  sqlite
    .prepare(
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE '%search%' AND sql NOT LIKE 'CREATE VIRTUAL%'",
    )
    .pluck()
    .all() as string[];

export const referenceTables = ['maker', 'series', 'casting', 'release', 'variation'];

/**
 * SHA-256 of what a collection, or a part of it, says: every row by its content, with what it refers to said by
 * content as well, in an order that follows from content alone. Independent of ids, of the order of storing and
 * of when it was stored.
 */
export const contentHash = (dir: string, { tables, without = [], rows = {} }: ContentPart = {}): string => {
  const sqlite = new Database(join(dir, 'collection.sqlite'), { readonly: true });
  const left = new Set(without);
  const told = new Map<string, string>();
  const references = new Map<string, Map<string, string>>();
  const referencesOf = (table: string) => {
    let found = references.get(table);
    if (!found) {
      const keys = sqlite.prepare(`PRAGMA foreign_key_list("${table}")`).all() as {
        from: string;
        table: string;
      }[];
      found = new Map(keys.map(key => [key.from, key.table]));
      references.set(table, found);
    }
    return found;
  };
  const tell = (table: string, row: Row, above: readonly string[]): string => {
    const key = `${table} ${row.id ?? JSON.stringify(row)}`;
    const before = told.get(key);
    if (before !== undefined) return before;
    // Two rows that refer to each other: the one below is named by its table alone.
    if (above.includes(key)) return table;
    const to = referencesOf(table);
    const says = Object.entries(row)
      .filter(([column]) => !storing.has(column) && !left.has(`${table}.${column}`))
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([column, value]) => {
        const other = to.get(column);
        if (other === undefined || value === null) return [column, value];
        const found = sqlite.prepare(`SELECT * FROM "${other}" WHERE rowid = ?`).get(value) as
          | Row
          | undefined;
        return [column, found ? tell(other, found, [...above, key]) : value];
      });
    const hash = createHash('sha256').update(JSON.stringify(says)).digest('hex');
    told.set(key, hash);
    return hash;
  };
  try {
    const whole = createHash('sha256');
    for (const table of (tables ?? tablesOf(sqlite)).toSorted()) {
      const all = sqlite.prepare(`SELECT * FROM "${table}"`).all() as Row[];
      const said = all.filter(rows[table] ?? (() => true)).map(row => tell(table, row, []));
      whole.update(`${table} ${said.length}\n${said.sort().join('\n')}\n`);
    }
    return whole.digest('hex');
  } finally {
    sqlite.close();
  }
};

import type { Database } from 'better-sqlite3';

/**
 * What follows from a database's schema alone, read once for each connection and again only when the schema
 * is another.
 */
export const perSchema = <T>(read: (sqlite: Database) => T): ((sqlite: Database) => T) => {
  const known = new WeakMap<Database, { version: unknown; value: T }>();
  return sqlite => {
    const version = sqlite.pragma('main.schema_version', { simple: true });
    const before = known.get(sqlite);
    if (before && before.version === version) return before.value;
    const value = read(sqlite);
    known.set(sqlite, { version, value });
    return value;
  };
};

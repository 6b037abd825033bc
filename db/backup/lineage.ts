import { randomUUID } from 'node:crypto';
import type { Database } from 'better-sqlite3';

const key = 'collection-id';

/** The collection's own id, which its backups carry; undefined in a collection made before there was one. */
export const collectionId = (sqlite: Database): string | undefined =>
  sqlite.prepare('SELECT value FROM setting WHERE key = ?').pluck().get(key) as string | undefined;

/** Gives a collection its id where it has none. Not an action of the owner's: before history is installed. */
export const ensureCollectionId = (sqlite: Database, newId: () => string = randomUUID): void => {
  if (collectionId(sqlite) === undefined)
    sqlite.prepare('INSERT INTO setting (key, value) VALUES (?, ?)').run(key, newId());
};

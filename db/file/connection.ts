import { readFileSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { CollectionError } from '../errors.ts';
import { layout } from './layout.ts';

/** SQLite's page cache of one connection, in KiB; the whole of a large collection need not stay in memory. */
const cacheKiB = 8_000;

/** Applies what every connection of ours needs; closes it where that fails. */
const prepared = (sqlite: Database.Database, more: (sqlite: Database.Database) => void = () => {}) => {
  try {
    sqlite.pragma('busy_timeout = 5000');
    sqlite.pragma('foreign_keys = ON');
    sqlite.pragma('trusted_schema = OFF');
    sqlite.pragma('cell_size_check = ON');
    sqlite.pragma('temp_store = MEMORY');
    sqlite.pragma(`cache_size = -${cacheKiB}`);
    more(sqlite);
    return sqlite;
  } catch (error) {
    sqlite.close();
    throw error;
  }
};

/** Opens the collection's file for writing, with every commit on the disk before it is acknowledged. */
export const openWriter = (path: string): Database.Database =>
  prepared(new Database(path, { fileMustExist: true }), sqlite => {
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    // A large import leaves a large log; this much of it stays for the next.
    sqlite.pragma('journal_size_limit = 64000000');
    // Without it a REPLACE would remove rows unseen by history and search.
    sqlite.pragma('recursive_triggers = ON');
    if (process.platform === 'darwin') sqlite.pragma('checkpoint_fullfsync = ON');
  });

/** Opens any SQLite file of ours for reading: a collection beside its writer, or a backup. */
export const openReader = (path: string): Database.Database =>
  prepared(new Database(path, { readonly: true, fileMustExist: true }), sqlite => {
    sqlite.pragma('schema_version');
  });

const hasContent = (path: string) => (statSync(path, { throwIfNoEntry: false })?.size ?? 0) > 0;

/**
 * Opens a collection's file for reading where nothing may be written, not even the index of its write-ahead log: a copy
 * in memory, its header saying that it has none. Source: SQLite's file format, "File format version numbers".
 */
export const openUnwritable = (dir: string): Database.Database => {
  const { database, log } = layout(dir);
  if (hasContent(log))
    throw new CollectionError(
      'read-only',
      `${dir} cannot be written, and its last changes still lie in ${log}. Copy the folder to a place that can be written, and open it there.`,
    );
  const bytes = readFileSync(database);
  bytes.fill(1, 18, 20);
  return prepared(new Database(bytes, { readonly: true }));
};

import { copyFileSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import Database from 'better-sqlite3';
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

/** A copy with its log in a temporary folder, which goes when the connection is closed. */
const openElsewhere = ({ database, wal }: { database: string; wal: string }): Database.Database => {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-read-'));
  const remove = () => rmSync(folder, { recursive: true, force: true });
  try {
    const copy = join(folder, basename(database));
    copyFileSync(database, copy);
    copyFileSync(wal, join(folder, basename(wal)));
    const sqlite = openReader(copy);
    const close = sqlite.close.bind(sqlite);
    sqlite.close = () => {
      close();
      remove();
      return sqlite;
    };
    return sqlite;
  } catch (error) {
    remove();
    throw error;
  }
};

/**
 * Opens a collection's file for reading where nothing may be written, not even the index of its write-ahead
 * log: a copy in memory, its header saying that it has none, or with changes still in its log a copy in a
 * temporary folder. Source: SQLite's file format, "File format version numbers".
 */
export const openUnwritable = (dir: string): Database.Database => {
  const paths = layout(dir);
  if (hasContent(paths.wal)) return openElsewhere(paths);
  const bytes = readFileSync(paths.database);
  bytes.fill(1, 18, 20);
  return prepared(new Database(bytes, { readonly: true }));
};

import Database from 'better-sqlite3';
import { layout } from './layout.ts';

/** SQLite's page cache of one connection, in KiB; the whole of a large collection need not stay in memory. */
const cacheKiB = 8_000;

const prepare = (sqlite: Database.Database): Database.Database => {
  sqlite.pragma('busy_timeout = 5000');
  sqlite.pragma('foreign_keys = ON');
  sqlite.pragma('trusted_schema = OFF');
  sqlite.pragma('cell_size_check = ON');
  sqlite.pragma('temp_store = MEMORY');
  sqlite.pragma(`cache_size = -${cacheKiB}`);
  return sqlite;
};

/** Opens the collection's file for writing, with every commit on the disk before it is acknowledged. */
export const openWriter = (path: string): Database.Database => {
  const sqlite = prepare(new Database(path, { fileMustExist: true }));
  try {
    sqlite.pragma('journal_mode = WAL');
    sqlite.pragma('synchronous = FULL');
    // Without it a REPLACE would remove rows unseen by history and search.
    sqlite.pragma('recursive_triggers = ON');
    if (process.platform === 'darwin') sqlite.pragma('checkpoint_fullfsync = ON');
    return sqlite;
  } catch (error) {
    sqlite.close();
    throw error;
  }
};

/** Opens a collection's file for reading beside its writer. */
export const openReader = (dir: string): Database.Database =>
  prepare(new Database(layout(dir).database, { readonly: true, fileMustExist: true }));

/** Opens any SQLite file of ours, such as a backup, for reading alone. */
export const openFileReadOnly = (path: string): Database.Database =>
  prepare(new Database(path, { readonly: true, fileMustExist: true }));

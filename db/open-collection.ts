import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import DatabaseFile from 'better-sqlite3';
import { migrations as shippedSteps } from '../migrations/index.ts';
import { currencyDecimals } from '../valuation/money.ts';
import { backUp, writeBackup } from './backup/backup.ts';
import type { Collection } from './collection.ts';
import { asCollectionError, CollectionError, explain } from './errors.ts';
import { openReader, openUnwritable, openWriter } from './file/connection.ts';
import { kyselyOver } from './file/dialect.ts';
import { checkIdentity, checkOpenIdentity } from './file/file-header.ts';
import { makeFolder, syncFile, syncFolder } from './file/files.ts';
import { applicationId, layout } from './file/layout.ts';
import { type Host, type Lock, type OpenMark, takeLock } from './file/lock.ts';
import { migrate, type Steps } from './file/migrate.ts';
import { checkRuntime } from './file/runtime.ts';
import { checkLog, readLogSalt } from './file/wal-lineage.ts';
import { pruneHistory } from './history/prune.ts';
import { refuseInsideAction } from './history/running.ts';
import { installHistory } from './history/tracking.ts';
import { installSearch } from './search/search-index.ts';

export { collectionExists } from './file/layout.ts';

interface OpenOptions {
  at: string;
  host: Host;
  /** Reads without taking the lock, beside a program that writes; every write fails. */
  readOnly?: boolean;
  /** The schema steps; tests pass others. */
  steps?: Steps;
}

const quickCheck = (sqlite: Database, path: string): void => {
  const rows = sqlite.pragma('quick_check(1)') as { quick_check: string }[];
  if (rows[0]?.quick_check !== 'ok')
    throw new CollectionError('damaged', `${path} is damaged (${rows[0]?.quick_check}). Restore a backup.`);
};

const assemble = (dir: string, sqlite: Database, reader: Database, readOnly: boolean) => ({
  dir,
  readOnly,
  sqlite,
  reader,
  db: kyselyOver(reader, () =>
    refuseInsideAction(
      dir,
      'Inside an action read with its transaction: collection.db shows the state before it',
    ),
  ),
  writer: kyselyOver(sqlite),
});

const openForReading = (dir: string, known: number): Collection => {
  const path = layout(dir).database;
  let reader: Database;
  try {
    reader = openReader(path);
  } catch (error) {
    const reason = asCollectionError(error, path);
    if (!(reason instanceof CollectionError) || reason.code !== 'read-only') throw error;
    reader = openUnwritable(dir);
  }
  try {
    checkOpenIdentity(
      path,
      reader.pragma('application_id', { simple: true }) as number,
      reader.pragma('user_version', { simple: true }) as number,
      known,
    );
  } catch (error) {
    reader.close();
    throw error;
  }
  return {
    ...assemble(dir, reader, reader, true),
    notices: [],
    rowsWritten: () => 0,
    backedUpRows: 0,
    close: async () => {
      reader.close();
      return { notices: [] };
    },
  };
};

const whenOpen = (
  dir: string,
  sqlite: Database,
  lock: Lock,
  notices: string[],
  mark: OpenMark,
): Collection => {
  const reader = openReader(layout(dir).database);
  const totalChanges = sqlite.prepare('SELECT total_changes()').pluck();
  const atOpening = Number(totalChanges.get());
  let open = true;
  const collection: Collection = {
    ...assemble(dir, sqlite, reader, false),
    notices,
    rowsWritten: () => Number(totalChanges.get()) - atOpening,
    // What a session wrote that did not close is in no backup yet.
    backedUpRows: lock.leftBehind ? -1 : 0,
    close: async ({ at }) => {
      if (!open) return { notices: [] };
      open = false;
      const failures: string[] = [];
      if (collection.rowsWritten() !== collection.backedUpRows)
        await backUp(collection, { at, reason: 'closed after changes' }).catch(error => {
          failures.push(`No backup was made on closing. ${error instanceof Error ? error.message : error}`);
        });
      // Waits for an action that is still running.
      await collection.writer.connection().execute(async () => {
        reader.close();
        try {
          // Without the log's salt, a log that is gone after this was written into the file and not lost.
          lock.mark(mark);
        } catch (error) {
          if (!(asCollectionError(error, dir) instanceof CollectionError)) throw error;
        }
        sqlite.close();
        // On a full disk the log cannot be written into the file: it stays, and so does the mark that vouches for it.
        lock.release(!existsSync(layout(dir).log));
      });
      return { notices: failures };
    },
  };
  return collection;
};

const openLocked = async (
  dir: string,
  lock: Lock,
  { at, host, steps = shippedSteps }: OpenOptions,
): Promise<Collection> => {
  const paths = layout(dir);
  const known = Object.keys(steps).length;
  checkIdentity(paths.database, existsSync(paths.log) && statSync(paths.log).size > 0, known);
  const notices = checkLog(paths.log, lock.leftBehind);
  lock.mark({ host, pid: process.pid, since: at });
  const sqlite = openWriter(paths.database);
  try {
    const version = sqlite.pragma('user_version', { simple: true }) as number;
    checkOpenIdentity(
      paths.database,
      sqlite.pragma('application_id', { simple: true }) as number,
      version,
      known,
    );
    if (lock.leftBehind) {
      quickCheck(sqlite, paths.database);
      if (notices.length === 0) notices.push('The last session ended without closing; checked, all is well.');
    }
    if (version < known) {
      writeBackup(dir, sqlite, { at, reason: 'before updating' });
      await migrate(sqlite, at, steps);
    }
    // A first page written makes the log and its salt, whose lineage the mark keeps.
    else sqlite.pragma(`user_version = ${version}`);
    lock.mark({ host, pid: process.pid, since: at, logSalt: readLogSalt(paths.log) });
    pruneHistory(sqlite);
    installHistory(sqlite);
    installSearch(sqlite);
    return whenOpen(dir, sqlite, lock, notices, { host, pid: process.pid, since: at });
  } catch (error) {
    sqlite.close();
    throw error;
  }
};

/**
 * Opens the collection in a folder: checks what its file is before anything is written, takes the lock, checks the file
 * after a session that did not close, and brings an older schema to the newest (with a backup before). Throws
 * CollectionError: 'missing', 'foreign', 'newer', 'damaged', 'locked', 'read-only', 'disk-full', 'old-runtime'.
 */
export const openCollection = async (dir: string, options: OpenOptions): Promise<Collection> => {
  checkRuntime();
  const paths = layout(dir);
  const known = Object.keys(options.steps ?? shippedSteps).length;
  return explain(paths.database, async () => {
    // Reading the file of a collection that this process has open would drop its locks; without a lock file nobody has.
    if (!existsSync(paths.lock)) checkIdentity(paths.database, existsSync(paths.log), known);
    if (options.readOnly) return openForReading(dir, known);
    const lock = takeLock(dir);
    try {
      return await openLocked(dir, lock, options);
    } catch (error) {
      lock.release(false);
      throw error;
    }
  });
};

/**
 * Makes an empty collection in a folder, which is made too, and closes it again. The file appears whole or not at all.
 * Throws CollectionError 'exists' where there is one; RangeError for a currency that is no ISO 4217 code.
 */
export const createCollection = async (
  dir: string,
  { at, reportingCurrency, steps }: { at: string; reportingCurrency: string; steps?: Steps },
): Promise<void> => {
  checkRuntime();
  currencyDecimals(reportingCurrency);
  const paths = layout(dir);
  await explain(dir, async () => {
    if (existsSync(paths.database))
      throw new CollectionError(
        'exists',
        `There is already a collection in ${dir}. Open it, or choose another folder.`,
      );
    makeFolder(dir);
    const temporary = `${paths.database}.part`;
    rmSync(temporary, { force: true });
    try {
      const sqlite = new DatabaseFile(temporary);
      try {
        sqlite.pragma(`application_id = ${applicationId}`);
        await migrate(sqlite, at, steps);
        sqlite
          .prepare('INSERT INTO setting (key, value) VALUES (?, ?)')
          .run('reporting-currency', reportingCurrency);
      } finally {
        sqlite.close();
      }
      syncFile(temporary);
      renameSync(temporary, paths.database);
      syncFolder(dir);
    } catch (error) {
      rmSync(temporary, { force: true });
      throw error;
    }
  });
};

import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import DatabaseFile from 'better-sqlite3';
import { migrations as shippedSteps } from '../migrations/index.ts';
import { currencyDecimals } from '../valuation/money.ts';
import { behindText, lostChangesText } from '../valuation/wording/storage/finding-text.ts';
import { backUp, backupStanding, writeBackup } from './backup/backup.ts';
import { removeUnfinished } from './backup/keep.ts';
import { ensureCollectionId } from './backup/lineage.ts';
import { copyAside } from './backup/set-aside.ts';
import type { Collection } from './collection.ts';
import { asCollectionError, CollectionError, withStorageErrors } from './errors.ts';
import { openReader, openUnwritable, openWriter } from './file/connection.ts';
import { kyselyOver } from './file/dialect.ts';
import { checkIdentity, checkKinds, checkOpenIdentity } from './file/file-header.ts';
import { makeFolder, sweepUnfinished, syncFile, syncFolder } from './file/files.ts';
import { applicationId, foldersWithState, layout } from './file/layout.ts';
import { bootOfMachine, type Host, type Lock, type OpenMark, takeLock } from './file/lock.ts';
import { migrate, type Steps } from './file/migrate.ts';
import { checkRuntime } from './file/runtime.ts';
import { readWalSalt, type WalFault } from './file/wal-frames.ts';
import { checkWal } from './file/wal-lineage.ts';
import { pruneHistory, refuseInsideAction } from './history/history.ts';
import { installHistory } from './history/tracking.ts';
import { installSearch } from './search/search-index.ts';

export { collectionExists } from './file/layout.ts';

export interface OpenOptions {
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
    throw new CollectionError({
      kind: 'file',
      path,
      fault: { kind: 'structure', detail: String(rows[0]?.quick_check) },
    });
};

const handles = (dir: string, write: Database, read: Database) => ({
  read: {
    db: kyselyOver(read, () =>
      refuseInsideAction(
        dir,
        'Inside an action read with its transaction: collection.read shows the state before it',
      ),
    ),
    sqlite: read,
  },
  write: { db: kyselyOver(write), sqlite: write },
});

/** A disk that takes nothing more is no reason not to look at what there is. */
const cannotBeWritten = (error: unknown, path: string): boolean => {
  // The log's index could not be made.
  if (error instanceof DatabaseFile.SqliteError && error.code.startsWith('SQLITE_IOERR_SHM')) return true;
  const reason = asCollectionError(error, path);
  return reason instanceof CollectionError && /^(read-only|disk-full)$/.test(reason.code);
};

const openForReading = (dir: string, known: number): Collection => {
  const path = layout(dir).database;
  let reader: Database;
  try {
    reader = openReader(path);
  } catch (error) {
    if (!cannotBeWritten(error, path)) throw error;
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
    dir,
    readOnly: true,
    ...handles(dir, reader, reader),
    notices: [],
    rowsWritten: () => 0,
    backedUpRows: 0,
    close: async () => {
      reader.close();
      return { notices: [] };
    },
  };
};

interface Opened {
  dir: string;
  sqlite: Database;
  lock: Lock;
  notices: string[];
  mark: OpenMark;
  backedUp: boolean;
}

const whenOpen = ({ dir, sqlite, lock, notices, mark, backedUp }: Opened): Collection => {
  const reader = openReader(layout(dir).database);
  const totalChanges = sqlite.prepare('SELECT total_changes()').pluck();
  const atOpening = Number(totalChanges.get());
  let open = true;
  const collection: Collection = {
    dir,
    readOnly: false,
    ...handles(dir, sqlite, reader),
    notices,
    rowsWritten: () => Number(totalChanges.get()) - atOpening,
    // What a session wrote that did not close, or whose backup failed, is in no backup yet.
    backedUpRows: backedUp ? 0 : -1,
    close: async ({ at }) => {
      if (!open) return { notices: [] };
      open = false;
      const failures: string[] = [];
      if (collection.rowsWritten() !== collection.backedUpRows)
        await backUp(collection, { at, reason: 'closed after changes' }).catch(error => {
          failures.push(`No backup was made on closing. ${error instanceof Error ? error.message : error}`);
        });
      // Waits for an action that is still running.
      await collection.write.db.connection().execute(async () => {
        reader.close();
        try {
          // Without the log's salt, a log that is gone after this was written into the file and not lost.
          lock.mark(mark);
        } catch (error) {
          if (!(asCollectionError(error, dir) instanceof CollectionError)) throw error;
        }
        sqlite.close();
        // On a full disk the log cannot be written into the file: it stays, and so does the mark
        // that vouches for it.
        lock.release(!existsSync(layout(dir).wal));
      });
      return { notices: failures };
    },
  };
  return collection;
};

const lastChange = (sqlite: Database): { label: string; at: string } | undefined =>
  sqlite.prepare('SELECT label, made_at AS at FROM change WHERE undone = 0 ORDER BY id DESC LIMIT 1').get() as
    | { label: string; at: string }
    | undefined;

/** Sweeps what a killed program left unfinished. */
const sweep = (dir: string): void => {
  const { database, openMark, workedOut, photos, backups } = layout(dir);
  for (const path of [database, openMark, workedOut]) rmSync(`${path}.part`, { force: true });
  sweepUnfinished(photos);
  if (existsSync(backups)) removeUnfinished(dir);
};

/** What an opening that finds a session left behind tells, having checked the file. */
const noticesOf = (sqlite: Database, dir: string, fault: WalFault | undefined, aside: string | undefined) => {
  quickCheck(sqlite, layout(dir).database);
  return fault
    ? lostChangesText(fault, lastChange(sqlite), aside)
    : 'The last session ended without closing; checked, all is well.';
};

const openLocked = async (
  dir: string,
  lock: Lock,
  { at, host, steps = shippedSteps }: OpenOptions,
): Promise<Collection> => {
  const paths = layout(dir);
  const known = Object.keys(steps).length;
  const { leftBehind } = lock;
  const boot = bootOfMachine();
  checkIdentity(paths.database, existsSync(paths.wal) && statSync(paths.wal).size > 0, { known });
  const fault = checkWal(paths, leftBehind, boot);
  // SQLite writes over what it cannot read.
  const aside = fault && fault !== 'gone' ? copyAside(dir, at) : undefined;
  const mark: OpenMark = { host, pid: process.pid, since: at, ...(boot !== undefined && { boot }) };
  lock.mark({ ...mark, walSalt: leftBehind?.walSalt });
  if (leftBehind) sweep(dir);
  const sqlite = openWriter(paths.database);
  try {
    const version = sqlite.pragma('user_version', { simple: true }) as number;
    checkOpenIdentity(
      paths.database,
      sqlite.pragma('application_id', { simple: true }) as number,
      version,
      known,
    );
    const notices = leftBehind ? [noticesOf(sqlite, dir, fault, aside)] : [];
    if (version < known) {
      writeBackup(dir, sqlite, { at, reason: 'before updating' });
      await migrate(sqlite, at, steps);
    }
    // A first page written makes the log and its salt, whose lineage the mark keeps.
    else sqlite.pragma(`user_version = ${version}`);
    lock.mark({ ...mark, walSalt: readWalSalt(paths.wal) });
    ensureCollectionId(sqlite);
    const standing = backupStanding(dir, sqlite);
    if (standing === 'behind' && !leftBehind) notices.push(behindText);
    pruneHistory(sqlite);
    installHistory(sqlite);
    installSearch(sqlite);
    const backedUp = !leftBehind && standing !== 'behind';
    return whenOpen({ dir, sqlite, lock, notices, mark, backedUp });
  } catch (error) {
    sqlite.close();
    throw error;
  }
};

/**
 * Opens the collection in a folder: checks what its file is before anything is written, takes the lock,
 * checks the file after a session that did not close, and brings an older schema to the newest (with a backup
 * before). Throws CollectionError: 'missing', 'needs-restoring', 'foreign', 'newer', 'damaged', 'linked',
 * 'obstructed', 'locked', 'read-only', 'disk-full', 'old-runtime'.
 */
export const openCollection = async (dir: string, options: OpenOptions): Promise<Collection> => {
  checkRuntime();
  const paths = layout(dir);
  const known = Object.keys(options.steps ?? shippedSteps).length;
  return withStorageErrors(paths.database, async () => {
    // Reading the file of a collection that this process has open would drop its locks; without a lock
    // file nobody has.
    if (!existsSync(paths.lock) || !existsSync(paths.database))
      checkIdentity(paths.database, existsSync(paths.wal), { known, toWrite: !options.readOnly });
    if (options.readOnly) return openForReading(dir, known);
    checkKinds(dir);
    const lock = takeLock(dir);
    try {
      return await openLocked(dir, lock, options);
    } catch (error) {
      lock.release(false);
      throw error;
    }
  });
};

interface NewCollection {
  at: string;
  reportingCurrency: string;
  steps?: Steps;
  /**
   * Gives the collection the id by which its backups are told from others'; a random one unless a test says.
   */
  newId?: () => string;
}

/**
 * Makes an empty collection in a folder, which is made too, and closes it again. The file appears whole or
 * not at all. Throws CollectionError 'exists' where there is one, 'needs-restoring' where there are backups
 * of one; RangeError for a currency that is no ISO 4217 code.
 */
export const createCollection = async (
  dir: string,
  { at, reportingCurrency, steps, newId }: NewCollection,
): Promise<void> => {
  checkRuntime();
  currencyDecimals(reportingCurrency);
  const paths = layout(dir);
  await withStorageErrors(dir, async () => {
    if (existsSync(paths.database)) throw new CollectionError({ kind: 'collection-exists', place: dir });
    if (foldersWithState(dir).length > 0) checkIdentity(paths.database, false);
    makeFolder(dir);
    checkKinds(dir);
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
        ensureCollectionId(sqlite, newId);
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

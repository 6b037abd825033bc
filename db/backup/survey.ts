import { existsSync } from 'node:fs';
import {
  asCollectionError,
  CollectionError,
  type CollectionErrorCode,
  type StorageFault,
  withStorageErrors,
} from '../errors.ts';
import { openReader } from '../file/connection.ts';
import { checkIdentity, checkKinds } from '../file/file-header.ts';
import { layout } from '../file/layout.ts';
import { bootOfMachine, takeLock } from '../file/lock.ts';
import { checkWal } from '../file/wal-lineage.ts';
import { faultOfBackup } from './fault.ts';
import { type BackupInfo, listBackups } from './list.ts';

/**
 * Why a collection cannot be opened: the code of the refusal, what exactly is wrong where that is
 * known, and in words.
 */
export interface CollectionProblem {
  code: CollectionErrorCode;
  fault: StorageFault | null;
  sentence: string;
}

/** What there is in a folder, for somebody whose collection cannot be opened. */
export interface FolderSurvey {
  dir: string;
  /** True where there is a database file that could be set aside. */
  hasDatabase: boolean;
  /** Null where nothing is found that keeps it from being opened. */
  problem: CollectionProblem | null;
  /**
   * As `listBackups` gives them, but every one read to its end: `fault` then says all that is wrong with it.
   */
  backups: BackupInfo[];
}

export const problemOf = (error: CollectionError): CollectionProblem => ({
  code: error.code,
  fault: error.fault ?? null,
  sentence: error.message,
});

/** Looks at the database as opening does, and at its structure, and writes nothing but the lock. */
const lookAt = (dir: string): void => {
  const paths = layout(dir);
  checkKinds(dir);
  // Reading the file of a collection that this process has open would drop its locks; the lock tells.
  if (existsSync(paths.database) && existsSync(paths.lock)) {
    const lock = takeLock(dir);
    try {
      checkIdentity(paths.database, existsSync(paths.wal));
      checkWal(paths, lock.leftBehind, bootOfMachine());
    } finally {
      lock.release(false);
    }
  } else checkIdentity(paths.database, existsSync(paths.wal));
  const sqlite = openReader(paths.database);
  try {
    const found = sqlite.pragma('quick_check(1)', { simple: true });
    if (found !== 'ok')
      throw new CollectionError({
        kind: 'file',
        path: paths.database,
        fault: { kind: 'structure', detail: String(found) },
      });
  } finally {
    sqlite.close();
  }
};

const problemIn = (dir: string): CollectionProblem | null => {
  try {
    lookAt(dir);
    return null;
  } catch (error) {
    const reason = asCollectionError(error, layout(dir).database);
    if (reason instanceof CollectionError) return problemOf(reason);
    throw error;
  }
};

/**
 * Tells what is wrong with the collection in a folder, and what each of its backups holds. Changes nothing.
 */
export const surveyFolder = (dir: string): Promise<FolderSurvey> =>
  withStorageErrors(dir, async () => {
    const backups = await listBackups(dir);
    return {
      dir,
      hasDatabase: existsSync(layout(dir).database),
      problem: problemIn(dir),
      backups: backups.map(backup =>
        backup.kind === 'backup' && !backup.fault
          ? { ...backup, fault: faultOfBackup(dir, backup.name) ?? null }
          : backup,
      ),
    };
  });

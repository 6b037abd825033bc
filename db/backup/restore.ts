import { copyFileSync, existsSync, rmSync } from 'node:fs';
import { schemaVersion } from '../../migrations/index.ts';
import type { Collection } from '../collection.ts';
import { asCollectionError, CollectionError, withStorageErrors } from '../errors.ts';
import { openReader, openWriter } from '../file/connection.ts';
import { checkIdentity, checkKinds } from '../file/file-header.ts';
import { putInPlace, syncFile, syncFolder } from '../file/files.ts';
import { backupFolders, layout } from '../file/layout.ts';
import { bootOfMachine, type Host, type Lock, takeLock } from '../file/lock.ts';
import { checkRuntime } from '../file/runtime.ts';
import { checkWal } from '../file/wal-lineage.ts';
import { originalPath } from '../photos/photo-files.ts';
import { writeBackup } from './backup.ts';
import { faultOfBackup, faultOfCopy } from './fault.ts';
import { holdBackups } from './keep.ts';
import { type BackupFault, backupPaths } from './list.ts';
import { photoHashes } from './manifest.ts';
import { copyAside } from './set-aside.ts';

const damagedBackup = (name: string, fault: BackupFault) =>
  new CollectionError({ kind: 'damaged-backup', name, fault });

/** True for a fault of the description alone: the database beside it may well be whole. */
export const isOfDescription = (fault: BackupFault): boolean => fault.kind.startsWith('description-');

export interface RestoreOptions {
  at: string;
  host: Host;
  /**
   * The collection where it is open, and how its holder closes it: that is done last, when
   * nothing more can fail.
   */
  open?: { collection: Collection; close(): Promise<void> } | undefined;
  /** Takes a database that is sound in itself though its description is not; set-aside states have none. */
  unverified?: boolean | undefined;
}

/** What a restore did. */
export interface Restored {
  /**
   * The backup, or the folder set aside, that holds the state from before; undefined where there was none.
   */
  presentState: string | undefined;
  /** SHA-256 of photographs that the restored state shows and the photo folder no longer has. */
  missingPhotos: string[];
}

/**
 * Verifies the chosen backup and lays a copy of its database beside the collection's.
 * Returns its photographs.
 */
const stage = (dir: string, name: string, staged: string, unverified: boolean): string[] => {
  const source = backupPaths(dir, name);
  const fault = faultOfBackup(dir, name);
  if (fault && !(unverified && isOfDescription(fault))) throw damagedBackup(name, fault);
  const inside = fault && faultOfCopy(source.database);
  if (inside) throw damagedBackup(name, inside);
  checkIdentity(source.database, false, { known: schemaVersion, toWrite: false });
  copyFileSync(source.database, staged);
  syncFile(staged);
  const copy = openReader(staged);
  try {
    return photoHashes(copy);
  } finally {
    copy.close();
  }
};

const isOfDisk = (error: unknown, dir: string): boolean => {
  const reason = asCollectionError(error, dir);
  return reason instanceof CollectionError && (reason.code === 'disk-full' || reason.code === 'read-only');
};

/**
 * Backs up the present state, with all of its log written into the file; a damaged one is set
 * aside as it lies.
 */
const keepPresentState = (dir: string, at: string, lock: Lock, replacedBy: string): string | undefined => {
  const paths = layout(dir);
  if (!existsSync(paths.database)) return undefined;
  try {
    checkIdentity(paths.database, existsSync(paths.wal));
    if (checkWal(paths, lock.leftBehind, bootOfMachine())) return copyAside(dir, at);
    const sqlite = openWriter(paths.database);
    try {
      return writeBackup(dir, sqlite, { at, reason: 'before restoring', replacedBy });
    } finally {
      sqlite.close();
    }
  } catch (error) {
    if (isOfDisk(error, dir)) throw error;
    return copyAside(dir, at);
  }
};

/** The same of an open collection; undefined where it is too damaged to be backed up. */
const keepOpenState = async ({ dir, ...open }: Collection, at: string, replacedBy: string) => {
  try {
    return await open.write.db
      .connection()
      .execute(async () =>
        writeBackup(dir, open.write.sqlite, { at, reason: 'before restoring', replacedBy }),
      );
  } catch (error) {
    if (isOfDisk(error, dir)) throw error;
    return undefined;
  }
};

const swap = (dir: string, staged: string) => {
  const paths = layout(dir);
  // A foreign log would be read into the restored database.
  rmSync(paths.wal, { force: true });
  rmSync(paths.shm, { force: true });
  syncFolder(dir);
  putInPlace(staged, paths.database);
};

/**
 * Puts a backup in the place of a collection. Before anything is replaced, the backup is held (nothing
 * removes it meanwhile) and verified, its copy laid ready and the present state saved, all of it while an
 * open collection stays open: where a restore is refused, for space too, everything is as it was. The swap is
 * one rename. Throws CollectionError: 'missing' (no such backup), 'damaged' (the backup), 'newer', 'locked'
 * (open elsewhere), 'disk-full', 'read-only'.
 */
export const restore = (dir: string, name: string, options: RestoreOptions): Promise<Restored> =>
  withStorageErrors(dir, async () => {
    checkRuntime();
    const { at, host, open, unverified = false } = options;
    checkKinds(dir);
    if (!backupFolders(dir).includes(name))
      throw new CollectionError({ kind: 'no-backup', name, folder: layout(dir).backups });
    const release = holdBackups(dir, [name]);
    const staged = `${layout(dir).database}.part`;
    const found = (photos: string[], presentState: string | undefined): Restored => ({
      presentState,
      missingPhotos: photos.filter(photo => !originalPath(dir, photo)),
    });
    let lock = open ? undefined : takeLock(dir);
    let swapped = false;
    try {
      const photos = stage(dir, name, staged, unverified);
      let presentState: string | undefined;
      if (open) {
        presentState = await keepOpenState(open.collection, at, name);
        open.collection.backedUpRows = open.collection.rowsWritten();
        await open.close();
        lock = takeLock(dir);
        presentState ??= copyAside(dir, at);
      }
      lock?.mark({ ...lock.leftBehind, host, pid: process.pid, since: at });
      if (!open && lock) presentState = keepPresentState(dir, at, lock, name);
      swap(dir, staged);
      swapped = true;
      return found(photos, presentState);
    } finally {
      rmSync(staged, { force: true });
      lock?.release(swapped || (!lock.leftBehind && !existsSync(layout(dir).wal)));
      release();
    }
  });

import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { basename, join } from 'node:path';
import { schemaVersion } from '../../migrations/index.ts';
import { CollectionError, explain } from '../errors.ts';
import { openReader, openWriter } from '../file/connection.ts';
import { checkIdentity } from '../file/file-header.ts';
import { putInPlace, syncFile, syncFolder } from '../file/files.ts';
import { layout } from '../file/layout.ts';
import { type Host, type Lock, takeLock } from '../file/lock.ts';
import { checkRuntime } from '../file/runtime.ts';
import { checkLog } from '../file/wal-lineage.ts';
import { originalPath } from '../photos/photo-files.ts';
import { backupPaths, listBackups, writeBackup } from './backup.ts';
import { differingTables, readManifest, sha256Of, tableHashes } from './manifest.ts';

const damagedBackup = (name: string, why: string) =>
  new CollectionError(
    'damaged',
    `The backup ${name} is damaged: ${why}. Nothing was changed. Choose another backup.`,
  );

/** What is wrong with a backup, as part of a sentence, or undefined where all of it is as when it was made. */
export const faultOfBackup = (dir: string, name: string): string | undefined => {
  const paths = backupPaths(dir, name);
  const manifest = readManifest(paths.manifest);
  if (!manifest) return 'its manifest is missing or unreadable';
  if (!existsSync(paths.database)) return 'its database is missing';
  if (sha256Of(readFileSync(paths.database)) !== manifest.sha256)
    return 'its database is not the one that was written';
  const copy = openReader(paths.database);
  try {
    const differing = differingTables(manifest.tables, tableHashes(copy));
    if (differing.length > 0) return `its tables ${differing.join(', ')} are not as they were`;
    const check = copy.pragma('quick_check(1)', { simple: true });
    return check === 'ok' ? undefined : String(check);
  } finally {
    copy.close();
  }
};

/** Keeps a database that no longer opens as it lies: its files copied aside, for somebody who can repair it. */
const setAside = (dir: string, at: string): string => {
  const paths = layout(dir);
  const folder = join(paths.backups, `set-aside-${at.replaceAll(':', '-')}`);
  mkdirSync(folder, { recursive: true });
  for (const path of [paths.database, paths.log])
    if (existsSync(path)) {
      const copy = join(folder, basename(path));
      copyFileSync(path, copy);
      syncFile(copy);
    }
  syncFolder(folder);
  return folder;
};

/** Backs up the present state, with all of its log written into the file; a damaged one is set aside as it lies. */
const keepPresentState = (dir: string, at: string, lock: Lock, replacedBy: string): string | undefined => {
  const paths = layout(dir);
  if (!existsSync(paths.database)) return undefined;
  try {
    checkIdentity(paths.database, existsSync(paths.log));
    checkLog(paths.log, lock.leftBehind);
    const sqlite = openWriter(paths.database);
    try {
      return writeBackup(dir, sqlite, { at, reason: 'before restoring', replacedBy }).name;
    } finally {
      sqlite.close();
    }
  } catch (error) {
    const full = error instanceof Error && 'code' in error && /FULL|ENOSPC/.test(String(error.code));
    if (full) throw error;
    return basename(setAside(dir, at));
  }
};

/** What a restore did. */
export interface Restored {
  /** The backup, or the folder set aside, that holds the state from before; undefined where there was none. */
  presentState: string | undefined;
  /** SHA-256 of photographs that the restored state shows and the photo folder no longer has. */
  missingPhotos: string[];
}

/**
 * Puts a backup in the place of a closed collection. The backup is verified and the present state kept before anything
 * is replaced; the old write-ahead files go first, since a foreign one would be read into the restored database; the
 * swap is one rename. Throws CollectionError: 'missing' (no such backup), 'damaged' (the backup), 'newer', 'locked'
 * (close the collection first), 'disk-full', 'read-only'.
 */
export const restore = (
  dir: string,
  name: string,
  { at, host }: { at: string; host: Host },
): Promise<Restored> =>
  explain(dir, async () => {
    checkRuntime();
    const paths = layout(dir);
    if (!(await listBackups(dir)).some(backup => backup.name === name))
      throw new CollectionError(
        'missing',
        `There is no backup ${name} in ${paths.backups}. Choose one from the list.`,
      );
    const lock = takeLock(dir);
    let clean = lock.leftBehind === undefined;
    try {
      const source = backupPaths(dir, name);
      const fault = faultOfBackup(dir, name);
      if (fault) throw damagedBackup(name, fault);
      checkIdentity(source.database, false, schemaVersion);
      const photos = readManifest(source.manifest)?.photos ?? [];
      const temporary = `${paths.database}.part`;
      copyFileSync(source.database, temporary);
      syncFile(temporary);
      lock.mark({ host, pid: process.pid, since: at });
      clean = false;
      const presentState = keepPresentState(dir, at, lock, name);
      rmSync(paths.log, { force: true });
      rmSync(paths.index, { force: true });
      syncFolder(dir);
      putInPlace(temporary, paths.database);
      clean = true;
      return { presentState, missingPhotos: photos.filter(photo => !originalPath(dir, photo)) };
    } finally {
      rmSync(`${paths.database}.part`, { force: true });
      lock.release(clean);
    }
  });

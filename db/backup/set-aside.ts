import { copyFileSync, existsSync, renameSync } from 'node:fs';
import { basename, join } from 'node:path';
import { CollectionError, withStorageErrors } from '../errors.ts';
import { makeFolder, syncFile, syncFolder } from '../file/files.ts';
import { layout } from '../file/layout.ts';
import { takeLock } from '../file/lock.ts';

const freeFolder = (dir: string, at: string): string => {
  const base = join(layout(dir).backups, `set-aside-${at.replaceAll(':', '-')}`);
  let folder = base;
  for (let count = 2; existsSync(folder); count++) folder = `${base}-${count}`;
  return folder;
};

/** What makes up a database as it lies: the file, and its log with changes that may not be in it yet. */
const partsOf = (dir: string): string[] => {
  const { database, wal } = layout(dir);
  return [database, wal].filter(existsSync);
};

/**
 * Copies a database as it lies into `backups/`, for somebody who can repair it. Returns the folder's name.
 */
export const copyAside = (dir: string, at: string): string => {
  const folder = freeFolder(dir, at);
  const unfinished = `${folder}.part`;
  makeFolder(unfinished);
  for (const path of partsOf(dir)) {
    const copy = join(unfinished, basename(path));
    copyFileSync(path, copy);
    syncFile(copy);
  }
  syncFolder(unfinished);
  renameSync(unfinished, folder);
  syncFolder(layout(dir).backups);
  return basename(folder);
};

/**
 * Moves the database of a closed collection out of the way, into a folder of its own in `backups/`, without
 * needing space for it. Photographs and backups stay. Returns the folder's name. Throws CollectionError
 * 'missing' where there is no database, 'locked', 'read-only'.
 */
export const setAside = (dir: string, at: string): Promise<string> =>
  withStorageErrors(dir, () => {
    const parts = partsOf(dir);
    if (!parts.includes(layout(dir).database)) throw new CollectionError({ kind: 'no-database', place: dir });
    const lock = takeLock(dir);
    try {
      const folder = freeFolder(dir, at);
      makeFolder(folder);
      for (const path of parts) renameSync(path, join(folder, basename(path)));
      syncFolder(folder);
      syncFolder(dir);
      return basename(folder);
    } finally {
      lock.release(!existsSync(layout(dir).database));
    }
  });

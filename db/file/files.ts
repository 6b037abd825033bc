import { createHash } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { asCollectionError, CollectionError } from '../errors.ts';
import { unfinished } from './layout.ts';

/** SHA-256 of bytes, as 64 hexadecimal digits. */
export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/**
 * Makes a folder's entries durable. Windows cannot open a folder and needs nothing: its
 * renames are journalled.
 */
export const syncFolder = (folder: string): void => {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};

/** Makes a file's content durable. */
export const syncFile = (path: string): void => {
  const handle = openSync(path, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};

/**
 * Puts a finished file in its place so that either the old or the new one is there, whole, whatever happens.
 */
export const putInPlace = (temporary: string, path: string): void => {
  syncFile(temporary);
  renameSync(temporary, path);
  syncFolder(dirname(path));
};

/** Writes a file so that it is there whole or not at all. `temporary` must lie in the same folder. */
export const writeWhole = (path: string, content: string | Uint8Array, temporary = `${path}.part`): void => {
  try {
    writeFileSync(temporary, content);
    putInPlace(temporary, path);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
};

const cannotBeMade = (path: string, cause: unknown) =>
  // Below a read-only folder or on a missing drive the system only says that there is no such place.
  new CollectionError({ kind: 'folder-not-made', path }, { cause });

/**
 * Makes a folder and those above it that are missing, one after the other. (Node's own `recursive` never
 * returns where a folder is there and the system still answers that there is no such place, as /proc and
 * some automounters do.) Throws CollectionError 'read-only', 'disk-full', or 'obstructed' where a file
 * stands in the way.
 */
export const makeFolder = (path: string): void => {
  const missing: string[] = [];
  for (let folder = resolve(path); !existsSync(folder); folder = dirname(folder)) {
    if (folder === dirname(folder)) throw cannotBeMade(path, undefined);
    missing.unshift(folder);
  }
  for (const folder of missing)
    try {
      mkdirSync(folder);
    } catch (cause) {
      // Another program may have made it meanwhile.
      if (statSync(folder, { throwIfNoEntry: false })?.isDirectory()) continue;
      const reason = asCollectionError(cause, path);
      throw reason instanceof CollectionError ? reason : cannotBeMade(path, cause);
    }
  if (!statSync(path).isDirectory()) throw obstructed(path, 'folder');
};

/** What stands where a file or a folder of ours belongs is of the other kind. */
export const obstructed = (path: string, expected: 'file' | 'folder') =>
  new CollectionError({ kind: 'file', path, fault: { kind: 'obstructed', path, expected } });

/** Removes what a killed program left unfinished below a folder. Only while nothing else writes there. */
export const sweepUnfinished = (folder: string): void => {
  if (!existsSync(folder)) return;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (unfinished.test(entry.name)) rmSync(path, { recursive: true, force: true });
    else if (entry.isDirectory()) sweepUnfinished(path);
  }
};

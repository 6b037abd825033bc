import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { asCollectionError, CollectionError } from '../errors.ts';

/** Makes a folder's entries durable. Windows cannot open a folder and needs nothing: its renames are journalled. */
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

/** Puts a finished file in its place so that either the old or the new one is there, whole, whatever happens. */
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

/** Makes a folder and those above it. Throws CollectionError 'read-only' or 'disk-full' where that cannot be. */
export const makeFolder = (path: string): void => {
  try {
    mkdirSync(path, { recursive: true });
  } catch (cause) {
    const reason = asCollectionError(cause, path);
    if (reason instanceof CollectionError) throw reason;
    // Below a read-only folder or on a missing drive the system only says that there is no such place.
    throw new CollectionError('read-only', `The folder ${path} cannot be made there. Choose another place.`, {
      cause,
    });
  }
};

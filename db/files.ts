import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

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

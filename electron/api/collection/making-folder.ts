import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { makeFolder } from '../../../db/file/files.ts';
import { isRunning } from '../../../db/file/running-process.ts';

const infix = '.making-';

/** Removes the folders that programs which no longer run left half made beside `dir`, and nothing else. */
const sweepLeft = (dir: string): void => {
  const parent = dirname(dir);
  const start = `${basename(dir)}${infix}`;
  for (const name of readdirSync(parent)) {
    const pid = name.startsWith(start) ? /^(\d+)-\w{6}$/.exec(name.slice(start.length))?.[1] : undefined;
    if (pid !== undefined && !isRunning(Number(pid)))
      rmSync(join(parent, name), { recursive: true, force: true });
  }
};

/** Makes a new folder beside `dir`, of this process alone, in which what is to become `dir` can be made. */
export const folderToMakeIn = (dir: string): string => {
  makeFolder(dirname(dir));
  sweepLeft(dir);
  return mkdtempSync(`${dir}${infix}${process.pid}-`);
};

/** True where there is nothing in a folder, or no folder. */
export const isVacant = (dir: string): boolean => !existsSync(dir) || readdirSync(dir).length === 0;

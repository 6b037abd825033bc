import { readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { isRunning } from '../../db/file/running-process.ts';
import { asUsual } from '../service/private-files.ts';
import { Refused } from './terminal.ts';

/** Where a file is to go, in full. Refused where there is no such folder. */
export const outPath = (out: string): string => {
  const path = resolve(out);
  if (!statSync(dirname(path), { throwIfNoEntry: false })?.isDirectory())
    throw new Refused(`There is no folder ${dirname(path)}.`);
  return path;
};

/** Removes what commands that were killed left beside it. */
const sweepLeft = (path: string): void => {
  for (const name of readdirSync(dirname(path))) {
    const pid = name.startsWith(`${basename(path)}.`)
      ? /^(\d+)\.part$/.exec(name.slice(basename(path).length + 1))?.[1]
      : undefined;
    if (pid !== undefined && !isRunning(Number(pid))) rmSync(join(dirname(path), name), { force: true });
  }
};

/** Beside its place first, so that what fails half-way leaves the file before it as it was. */
export const writeWhole = (path: string, bytes: Uint8Array): void => {
  const aside = `${path}.${process.pid}.part`;
  try {
    sweepLeft(path);
    asUsual(() => writeFileSync(aside, bytes));
    renameSync(aside, path);
  } catch (error) {
    rmSync(aside, { force: true });
    throw new Refused(`The file could not be written: ${error instanceof Error ? error.message : error}`);
  }
};

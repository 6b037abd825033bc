import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { promisify } from 'node:util';

const root = join(import.meta.dirname, '../..');
const stampPath = join(root, 'dist/electron.stamp');

const folder = join(root, 'output/e2e');

/** Named after the sources it is made by, so that a change of them makes another. */
const place = (): string => {
  const stamp = readFileSync(stampPath);
  return join(folder, `demo-${createHash('sha256').update(stamp).digest('hex').slice(0, 12)}`);
};

const make = async (template: string): Promise<void> => {
  const aside = `${template}.${process.pid}`;
  const command = join(root, 'electron/cli/playworn.mjs');
  try {
    await promisify(execFile)(process.execPath, [command, 'demo', '--collection', join(aside, 'Demo')]);
    renameSync(join(aside, 'Demo'), template);
  } finally {
    rmSync(aside, { recursive: true, force: true });
  }
};

/**
 * True while the process that wrote the lock lives; one that was ended while making the demo
 * leaves it behind.
 */
const isHeld = (lock: string): boolean => {
  try {
    process.kill(Number(readFileSync(lock, 'utf8')), 0);
    return true;
  } catch {
    return false;
  }
};

const takeLock = (lock: string): boolean => {
  if (existsSync(lock) && !isHeld(lock)) rmSync(lock, { recursive: true, force: true });
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch {
    return false;
  }
};

/** Those of earlier sources, once no run can be using them any more. */
const removeOld = (): void => {
  const hourAgo = Date.now() - 3_600_000;
  for (const name of readdirSync(folder)) {
    const old = join(folder, name);
    if (name.startsWith('demo-') && statSync(old).mtimeMs < hourAgo)
      rmSync(old, { recursive: true, force: true });
  }
};

/**
 * Copies the demo collection into a folder; drawing it takes long, so that it is made once for all tests.
 * Where nothing has been built, nothing tells which sources one was made by, and it is made there.
 */
export const copyDemo = async (to: string): Promise<void> => {
  if (!existsSync(stampPath)) return make(to);
  const template = place();
  const lock = `${template}.lock`;
  mkdirSync(folder, { recursive: true });
  while (!existsSync(template)) {
    if (!takeLock(lock)) {
      await pause(500);
      continue;
    }
    try {
      removeOld();
      if (!existsSync(template)) await make(template);
    } finally {
      rmSync(lock, { force: true });
    }
  }
  cpSync(template, to, { recursive: true });
};

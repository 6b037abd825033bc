import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  cpSync,
  type Dirent,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, relative, sep } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { promisify } from 'node:util';

const root = join(import.meta.dirname, '../../..');
const folder = join(root, 'output/e2e');

/** What the demo is made by. */
const sources = ['electron', 'db', 'migrations', 'valuation', 'package-lock.json'];

const filesUnder = (path: string): string[] =>
  statSync(join(root, path)).isDirectory()
    ? (readdirSync(join(root, path), { recursive: true, withFileTypes: true }) as Dirent[])
        .filter(entry => entry.isFile())
        .map(entry => join(entry.parentPath, entry.name))
        .sort()
    : [join(root, path)];

let named: string | undefined;

/** Named after the bytes of its sources, so that a change of them makes another, whatever has been built. */
const place = (): string => {
  if (named === undefined) {
    const hash = createHash('sha256');
    for (const file of sources.flatMap(filesUnder)) hash.update(file).update(readFileSync(file));
    named = join(folder, `demo-${hash.digest('hex').slice(0, 12)}`);
  }
  return named;
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
 * The folder of a demo collection, made by `playworn demo` in a process of its own once for all tests:
 * drawing it takes long. It is only looked at; `copyDemo` gives one that may be opened.
 */
export const demoTemplate = async (): Promise<string> => {
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
  return template;
};

/** The template, or a copy of it, on the file system where temporary folders are: only there it can be linked. */
const linkable = async (): Promise<string> => {
  const template = await demoTemplate();
  if (statSync(template).dev === statSync(tmpdir()).dev) return template;
  const near = join(tmpdir(), `playworn-${basename(template)}`);
  if (existsSync(near)) return near;
  const aside = `${near}.${process.pid}`;
  cpSync(template, aside, { recursive: true });
  try {
    renameSync(aside, near);
  } catch (error) {
    rmSync(aside, { recursive: true, force: true });
    // Another process was faster.
    if (!existsSync(near)) throw error;
  }
  return near;
};

/**
 * Copies the demo collection into a temporary folder. Its photographs, which no program writes into, are
 * second names of the template's; the database is the copy's own.
 */
export const copyDemo = async (to: string): Promise<void> => {
  const template = await linkable();
  const photos = join(template, 'photos') + sep;
  const linked: string[] = [];
  const filter = (source: string) => {
    if (!source.startsWith(photos) || statSync(source).isDirectory()) return true;
    linked.push(source);
    return false;
  };
  cpSync(template, to, { recursive: true, filter });
  for (const photo of linked) linkSync(photo, join(to, relative(template, photo)));
};

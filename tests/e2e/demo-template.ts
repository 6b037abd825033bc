import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { promisify } from 'node:util';
import { root } from './hosts.ts';

/** Named after the sources it is made by, so that a change of them makes another. */
const place = (): string => {
  const stamp = readFileSync(join(root, 'dist/electron.stamp'));
  return join(root, 'output/e2e', `demo-${createHash('sha256').update(stamp).digest('hex').slice(0, 12)}`);
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

/** Copies the demo collection into a folder; drawing it takes long, so that it is made once for all tests. */
export const copyDemo = async (to: string): Promise<void> => {
  const template = place();
  const making = `${template}.lock`;
  mkdirSync(join(root, 'output/e2e'), { recursive: true });
  while (!existsSync(template)) {
    try {
      mkdirSync(making);
    } catch {
      await pause(500);
      continue;
    }
    try {
      if (!existsSync(template)) await make(template);
    } finally {
      rmSync(making, { recursive: true, force: true });
    }
  }
  cpSync(template, to, { recursive: true });
};

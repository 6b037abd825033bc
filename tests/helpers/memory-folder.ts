import { existsSync, mkdirSync, readdirSync, rmSync, statfsSync } from 'node:fs';
import { freemem } from 'node:os';
import { join } from 'node:path';

/** Where Linux offers a file system in memory. */
const memory = '/dev/shm';
const name = /^playworn-tests-(\d+)$/;

/** Bytes that must be free, of the file system and of memory: all tests together need a tenth of it. */
const least = 4e9;

const lives = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
};

const isRoomy = (): boolean => {
  if (process.platform !== 'linux' || !existsSync(memory)) return false;
  const { bavail, bsize } = statfsSync(memory);
  return bavail * bsize >= least && freemem() >= least;
};

/**
 * Has temporary folders of this process, and of those that it starts, made in memory where there is room, and
 * removed at its end. The files are as real as on a disk, but are not waited for: a collection waits for the
 * disk at every action, and that is most of the time of a run of tests on a busy machine. `TMPDIR` set from
 * outside stays.
 */
export const workInMemory = (): void => {
  if (process.env.TMPDIR || !isRoomy()) return;
  try {
    for (const other of readdirSync(memory)) {
      const pid = name.exec(other)?.[1];
      // Left behind by a run that was killed.
      if (pid && !lives(Number(pid))) rmSync(join(memory, other), { recursive: true, force: true });
    }
    const folder = join(memory, `playworn-tests-${process.pid}`);
    mkdirSync(folder, { mode: 0o700 });
    process.env.TMPDIR = folder;
    process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  } catch (error) {
    console.warn(`Tests work on the disk, as there is no folder in memory: ${error}`);
  }
};

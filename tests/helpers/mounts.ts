import { execFileSync } from 'node:child_process';
import { onTestFinished, type TestContext } from 'vitest';
import { temporaryFolder } from './collections.ts';

const mounted = (args: string[], dir: string): string | undefined => {
  try {
    execFileSync('mount', args, { stdio: 'pipe' });
    onTestFinished(() => {
      execFileSync('umount', [dir], { stdio: 'pipe' });
    });
    return undefined;
  } catch (error) {
    return error instanceof Error ? error.message.trim() : String(error);
  }
};

const skipLoudly = (context: TestContext, what: string, why: string) => {
  console.warn(`NOT TESTED: ${what}. It needs the right to mount here: ${why}`);
  context.skip(`needs the right to mount: ${why}`);
};

/** A file system of its own of so many KiB; skips the test, saying why, where none may be mounted. */
export const smallDisk = (context: TestContext, kib: number): string => {
  const dir = temporaryFolder();
  const why = mounted(['-t', 'tmpfs', '-o', `size=${kib}k`, 'tmpfs', dir], dir);
  if (why) skipLoudly(context, 'a full disk', why);
  return dir;
};

/** Makes a folder read-only, for the superuser too, until the test is over; skips as above. */
export const makeReadOnly = (context: TestContext, dir: string): void => {
  const why = mounted(['--bind', dir, dir], dir);
  if (why) skipLoudly(context, 'a read-only folder', why);
  execFileSync('mount', ['-o', 'remount,ro,bind', dir], { stdio: 'pipe' });
};

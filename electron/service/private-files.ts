import { statSync } from 'node:fs';
import { layout } from '../../db/file/layout.ts';

/** What nobody but the owner may do with a new file: anything. */
const ownerOnly = 0o077;

/** The umask under which new files become as open to group and others as the collection's database is. */
const maskFor = (dir: string): number => {
  const mode = statSync(layout(dir).database, { throwIfNoEntry: false })?.mode;
  if (mode === undefined) return ownerOnly;
  // A folder that may be read must be enterable too.
  return ownerOnly & ~((mode & 0o066) | ((mode & 0o044) >> 2));
};

let usual: number | undefined;

/**
 * Makes whatever this process writes from now on readable by its owner alone; where there is a collection in
 * the folder that its owner has opened to others, as open as that is. Without effect on Windows, where a
 * user's folders are private anyway.
 */
export const keepPrivate = (dir: string): void => {
  const before = process.umask(maskFor(dir));
  usual ??= before;
};

/**
 * Runs work whose files, or whose child processes, are the user's own affair. The work must
 * not be asynchronous.
 */
export const asUsual = <T>(work: () => T): T => {
  if (usual === undefined) return work();
  const now = process.umask(usual);
  try {
    return work();
  } finally {
    process.umask(now);
  }
};

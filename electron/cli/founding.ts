import { existsSync, readdirSync, rmdirSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** What a collection consists of; nothing else in its folder is ever removed. */
const ours = /^(collection\.(sqlite(-wal|-shm)?|lock(-journal|-wal|-shm)?|open)|photos|backups)$/;

const namesIn = (dir: string): string[] => (existsSync(dir) ? readdirSync(dir) : []);

/** The folders of a path that are not there yet, the innermost first. */
const missingFolders = (dir: string): string[] =>
  existsSync(dir) || dirname(dir) === dir ? [] : [dir, ...missingFolders(dirname(dir))];

/**
 * Remembers what was in a folder before a collection is made there. The function returned takes the
 * collection away again, for an import that then took nothing; call it once the collection is closed.
 */
export const beforeFounding = (dir: string): (() => void) => {
  const before = new Set(namesIn(dir));
  const folders = missingFolders(dir);
  return () => {
    for (const name of namesIn(dir))
      if (ours.test(name) && !before.has(name)) rmSync(join(dir, name), { recursive: true, force: true });
    for (const folder of folders) if (namesIn(folder).length === 0) rmdirSync(folder);
  };
};

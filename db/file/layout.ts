import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Where each thing lies in a collection's folder. */
export const layout = (dir: string) => ({
  database: join(dir, 'collection.sqlite'),
  wal: join(dir, 'collection.sqlite-wal'),
  shm: join(dir, 'collection.sqlite-shm'),
  lock: join(dir, 'collection.lock'),
  openMark: join(dir, 'collection.open'),
  workedOut: join(dir, 'collection.figures'),
  photos: join(dir, 'photos'),
  thumbnails: join(dir, 'photos', 'thumbnails'),
  backups: join(dir, 'backups'),
});

/** Marks the file as a collection ("Plyw"); SQLite keeps it in the file's header. */
export const applicationId = 0x506c7977;

/** The ending of whatever is not finished yet; what has it is never taken for the finished thing. */
export const unfinished = /\.part$/;

/** The files of one folder in `backups/`: a copy of the database, and its description. */
export const backupFiles = { database: 'collection.sqlite', manifest: 'manifest.json' } as const;

/** The finished folders in `backups/`, ours or not, by name; none where there is no such folder. */
export const backupFolders = (dir: string): string[] => {
  const { backups } = layout(dir);
  if (!statSync(backups, { throwIfNoEntry: false })?.isDirectory()) return [];
  return readdirSync(backups, { withFileTypes: true })
    .filter(entry => entry.isDirectory() && !unfinished.test(entry.name))
    .map(entry => entry.name)
    .sort();
};

/** Those that hold a collection's database or the description of one, sound or not. */
export const foldersWithState = (dir: string): string[] =>
  backupFolders(dir).filter(name =>
    Object.values(backupFiles).some(file => existsSync(join(layout(dir).backups, name, file))),
  );

/**
 * True when the folder holds a collection's file, whatever its state, or backups of one whose file is gone.
 */
export const collectionExists = (dir: string): boolean =>
  existsSync(layout(dir).database) || foldersWithState(dir).length > 0;

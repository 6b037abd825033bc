import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** Where each thing lies in a collection's folder. */
export const layout = (dir: string) => ({
  database: join(dir, 'collection.sqlite'),
  log: join(dir, 'collection.sqlite-wal'),
  index: join(dir, 'collection.sqlite-shm'),
  lock: join(dir, 'collection.lock'),
  openMark: join(dir, 'collection.open'),
  photos: join(dir, 'photos'),
  thumbnails: join(dir, 'photos', 'thumbnails'),
  backups: join(dir, 'backups'),
});

/** Marks the file as a collection ("Plyw"); SQLite keeps it in the file's header. */
export const applicationId = 0x506c7977;

/** True when the folder holds a collection file, whatever its state. */
export const collectionExists = (dir: string): boolean => existsSync(layout(dir).database);

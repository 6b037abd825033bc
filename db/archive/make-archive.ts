import { copyFileSync, existsSync, mkdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { writeBackup } from '../backup/backup.ts';
import { backupPaths } from '../backup/list.ts';
import { photoHashes } from '../backup/manifest.ts';
import type { Collection } from '../collection.ts';
import { CollectionError, withStorageErrors } from '../errors.ts';
import { openReader } from '../file/connection.ts';
import { makeFolder, syncFile, syncFolder } from '../file/files.ts';
import { backupFiles } from '../file/layout.ts';
import { originalPath } from '../photos/photo-files.ts';
import { filesBelow, sealBag } from './bag.ts';
import { writeTables } from './tables.ts';
import { zipFolder } from './zip-bag.ts';

/** Where each thing lies within an archive. */
export const archiveLayout = {
  database: `data/${backupFiles.database}`,
  manifest: `data/${backupFiles.manifest}`,
  tables: 'data/tables',
  photos: 'data/photos',
} as const;

export interface ArchiveOptions {
  /** Where it goes: a `.zip` file, or a folder that is not there yet. */
  out: string;
  /** ISO instant. */
  at: string;
  /** A finished report to go with it. */
  report?: { fileName: string; bytes: Uint8Array } | undefined;
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, total: number, stage: 'copying' | 'hashing' | 'packing') => void) | undefined;
}

export interface ArchiveMade {
  files: number;
  bytes: number;
  /**
   * SHA-256 of photographs that a car shows and the photo folder does not have: they are not in the archive.
   */
  missingPhotos: string[];
}

export const isZipName = (path: string): boolean => extname(path).toLowerCase() === '.zip';

const refuseTaken = (out: string): void => {
  if (existsSync(out)) throw new CollectionError({ kind: 'name-taken', path: out });
};

/**
 * The database as a backup of this moment, every table beside it, and the photographs. Returns
 * those that are gone.
 */
const fill = async (
  collection: Collection,
  folder: string,
  { at, report, signal, onProgress }: ArchiveOptions,
): Promise<string[]> => {
  const { dir } = collection;
  mkdirSync(join(folder, archiveLayout.tables), { recursive: true });
  const name = await collection.write.db
    .connection()
    .execute(async () => writeBackup(dir, collection.write.sqlite, { at, reason: 'archived' }));
  const backup = backupPaths(dir, name);
  copyFileSync(backup.database, join(folder, archiveLayout.database));
  copyFileSync(backup.manifest, join(folder, archiveLayout.manifest));
  collection.backedUpRows = collection.rowsWritten();
  const copy = openReader(join(folder, archiveLayout.database));
  let photos: string[];
  try {
    writeTables(copy, join(folder, archiveLayout.tables), at);
    photos = photoHashes(copy);
  } finally {
    copy.close();
  }
  const missing: string[] = [];
  for (const [i, sha256] of photos.entries()) {
    signal?.throwIfAborted();
    onProgress?.(i, photos.length, 'copying');
    const original = originalPath(dir, sha256);
    if (!original) {
      missing.push(sha256);
      continue;
    }
    const shelf = join(folder, archiveLayout.photos, sha256.slice(0, 2));
    mkdirSync(shelf, { recursive: true });
    copyFileSync(original, join(shelf, basename(original)));
    if (i % 20 === 19) await new Promise(resolve => setImmediate(resolve));
  }
  if (report) writeFileSync(join(folder, 'data', report.fileName), report.bytes);
  return missing;
};

/**
 * Writes the whole collection as a bag (RFC 8493): the database as a backup of this moment, every table as a
 * Data Package, the photographs byte for byte, and a report. It is made beside its goal and appears there
 * whole or not at all. Throws CollectionError 'exists' (something is there), 'disk-full', 'read-only', and
 * the signal's reason.
 */
export const makeArchive = (collection: Collection, options: ArchiveOptions): Promise<ArchiveMade> =>
  withStorageErrors(options.out, async () => {
    const { out, at, signal, onProgress } = options;
    refuseTaken(out);
    makeFolder(dirname(out));
    const folder = `${out}.part`;
    const zip = `${out}.zip.part`;
    const clear = () => {
      rmSync(folder, { recursive: true, force: true });
      rmSync(zip, { force: true });
    };
    clear();
    try {
      mkdirSync(folder);
      const missingPhotos = await fill(collection, folder, options);
      await sealBag(
        folder,
        {
          'Source-Organization': 'Made by its owner with Playworn',
          'Bagging-Date': at.slice(0, 10),
          'External-Description':
            'A collection of vintage toy cars: an inventory made by the owner, not an appraisal',
        },
        (done, total) => onProgress?.(done, total, 'hashing'),
      );
      signal?.throwIfAborted();
      const files = filesBelow(folder).length;
      if (isZipName(out)) {
        await zipFolder(folder, basename(out, extname(out)), zip, {
          signal,
          onFile: (done, total) => onProgress?.(done, total, 'packing'),
        });
        syncFile(zip);
      }
      refuseTaken(out);
      renameSync(isZipName(out) ? zip : folder, out);
      syncFolder(dirname(out));
      const bytes = isZipName(out)
        ? statSync(out).size
        : filesBelow(out).reduce((sum, name) => sum + statSync(join(out, name)).size, 0);
      return { files, bytes, missingPhotos };
    } finally {
      clear();
    }
  });

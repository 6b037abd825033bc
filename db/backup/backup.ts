import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import type { Collection } from '../collection.ts';
import { CollectionError, withStorageErrors } from '../errors.ts';
import { openReader } from '../file/connection.ts';
import { makeFolder, sha256Of, syncFile, syncFolder, writeWhole } from '../file/files.ts';
import { layout } from '../file/layout.ts';
import { removeSurplus } from './keep.ts';
import { collectionId } from './lineage.ts';
import { type BackupInfo, backupPaths, describedBackups, listBackups } from './list.ts';
import {
  differingTables,
  historyMark,
  type Manifest,
  manifestText,
  photoHashes,
  tableHashes,
} from './manifest.ts';

const freeName = (dir: string, at: string): string => {
  const base = at.replaceAll(':', '-').replace(/\.\d+Z$/, 'Z');
  const taken = (name: string) => existsSync(backupPaths(dir, name).folder);
  if (!taken(base)) return base;
  let count = 2;
  while (taken(`${base}-${count}`)) count++;
  return `${base}-${count}`;
};

/**
 * Reads a copy back and describes it. Throws CollectionError 'damaged' where the copy is not what
 * it was taken from.
 */
const describeCopy = (
  path: string,
  source: Database,
): Pick<Manifest, 'tables' | 'photos' | 'schema' | 'history'> => {
  const copy = openReader(path);
  try {
    const tables = tableHashes(copy);
    const differing = differingTables(tables, tableHashes(source));
    const check = copy.pragma('quick_check(1)', { simple: true });
    if (check !== 'ok' || differing.length > 0)
      throw new CollectionError({
        kind: 'backup-not-made',
        differing: differing.join(', ') || String(check),
      });
    return {
      tables,
      history: historyMark(copy),
      photos: photoHashes(copy),
      schema: copy.pragma('user_version', { simple: true }) as number,
    };
  } finally {
    copy.close();
  }
};

/**
 * Copies an open database into the collection's backups: VACUUM INTO a temporary folder, read back and
 * compared, made durable, and only then put in its place; then older backups of the same collection beyond
 * those to keep go (`replacedBy`, the one about to be restored, stays in any case). Without a transaction
 * open, by the holder of the collection's lock.
 */
export const writeBackup = (
  dir: string,
  sqlite: Database,
  { at, reason, replacedBy }: { at: string; reason: string; replacedBy?: string },
): string => {
  const { backups } = layout(dir);
  makeFolder(backups);
  const name = freeName(dir, at);
  const final = backupPaths(dir, name);
  const temporary = backupPaths(dir, `${name}.part`);
  rmSync(temporary.folder, { recursive: true, force: true });
  try {
    mkdirSync(temporary.folder);
    sqlite.prepare('VACUUM INTO ?').run(temporary.database);
    const described = describeCopy(temporary.database, sqlite);
    syncFile(temporary.database);
    const bytes = statSync(temporary.database).size;
    const collection = collectionId(sqlite);
    const manifest: Manifest = {
      ...(collection !== undefined && { collection }),
      sequence: (describedBackups(dir)[0]?.manifest.sequence ?? 0) + 1,
      at,
      reason,
      bytes,
      sha256: sha256Of(readFileSync(temporary.database)),
      ...(replacedBy !== undefined && { replacedBy }),
      ...described,
    };
    writeWhole(temporary.manifest, manifestText(manifest));
    renameSync(temporary.folder, final.folder);
    syncFolder(backups);
    if (collection !== undefined) removeSurplus(dir, collection, at, replacedBy);
    return name;
  } catch (error) {
    rmSync(temporary.folder, { recursive: true, force: true });
    throw error;
  }
};

const infoOf = async (dir: string, name: string): Promise<BackupInfo> => {
  const made = (await listBackups(dir)).find(backup => backup.name === name);
  if (!made) throw new CollectionError({ kind: 'backup-gone', name });
  return made;
};

/**
 * Makes a backup of an open collection. It holds every row and the list of photographs with their hashes,
 * not the photographs themselves. Throws CollectionError 'disk-full', 'read-only' or 'damaged'; earlier
 * backups then stay.
 */
export const backUp = (
  collection: Collection,
  { at, reason }: { at: string; reason: string },
): Promise<BackupInfo> =>
  withStorageErrors(layout(collection.dir).backups, async () => {
    const made = await collection.write.db
      .connection()
      .execute(async () => writeBackup(collection.dir, collection.write.sqlite, { at, reason }));
    collection.backedUpRows = collection.rowsWritten();
    return infoOf(collection.dir, made);
  });

/**
 * Makes the day's backup where something changed and the newest backup is of another day; null
 * where none is due.
 */
export const backUpIfDue = async (
  collection: Collection,
  { at }: { at: string },
): Promise<BackupInfo | null> => {
  if (collection.readOnly || collection.rowsWritten() === collection.backedUpRows) return null;
  const id = collectionId(collection.read.sqlite);
  const newest = describedBackups(collection.dir).find(({ manifest }) => manifest.collection === id);
  if (newest?.manifest.at.slice(0, 10) === at.slice(0, 10)) return null;
  return backUp(collection, { at, reason: 'daily' });
};

/** Whether some backup holds what a collection holds now: 'none' where it has no backup that could tell. */
export const backupStanding = (dir: string, sqlite: Database): 'none' | 'current' | 'behind' => {
  const id = collectionId(sqlite);
  const marks = describedBackups(dir).flatMap(({ manifest: { collection, history } }) =>
    collection === id && history !== undefined ? [history] : [],
  );
  if (marks.length === 0) return 'none';
  return marks.includes(historyMark(sqlite)) ? 'current' : 'behind';
};

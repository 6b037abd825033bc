import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import type { Collection } from '../collection.ts';
import { CollectionError, explain } from '../errors.ts';
import { openReader } from '../file/connection.ts';
import { makeFolder, syncFile, syncFolder, writeWhole } from '../file/files.ts';
import { layout } from '../file/layout.ts';
import {
  differingTables,
  type Manifest,
  photoHashes,
  readManifest,
  sha256Of,
  tableHashes,
} from './manifest.ts';

/** A backup as lists show it. */
export interface BackupInfo {
  name: string;
  at: string;
  reason: string;
  bytes: number;
  /** For the state from before a restore: the name of the backup that took its place. */
  replacedBy?: string;
}

/** Where a backup's parts lie. A backup is a folder that appears whole: the database's copy and its manifest. */
export const backupPaths = (dir: string, name: string) => {
  const folder = join(layout(dir).backups, name);
  return { folder, database: join(folder, 'collection.sqlite'), manifest: join(folder, 'manifest.json') };
};

const unfinished = /\.part$/;

const allBackups = (dir: string): (BackupInfo & { sequence: number })[] => {
  const { backups } = layout(dir);
  if (!existsSync(backups)) return [];
  return readdirSync(backups)
    .filter(name => !unfinished.test(name))
    .flatMap(name => {
      const manifest = readManifest(backupPaths(dir, name).manifest);
      if (!manifest) return [];
      const { at, reason, bytes, sequence, replacedBy } = manifest;
      return [{ name, at, reason, bytes, sequence, ...(replacedBy !== undefined && { replacedBy }) }];
    })
    .sort((a, b) => b.sequence - a.sequence);
};

/** The backups of a collection, newest first, by the order in which they were made and not by the clock. */
export const listBackups = async (dir: string): Promise<BackupInfo[]> =>
  allBackups(dir).map(({ sequence, ...backup }) => backup);

/**
 * The backup nearest to what the collection last held, of all given newest first: the newest, or where that is the state
 * that a restore gave up, the backup that took its place; undefined where there is none.
 */
export const nearestBackup = (backups: BackupInfo[]): BackupInfo | undefined =>
  backups.find(({ name }) => name === backups[0]?.replacedBy) ?? backups[0];

const mostOfToday = 3;
const mostBackups = 10;
/** Reasons whose newest backup stays: the state before something that cannot be undone. */
export const beforeReasons = ['before restoring', 'before updating'];

/**
 * Of backups given newest first, the names to keep: the newest whatever the clock says, the newest of each "before"
 * reason, three of the newest one's day, one of each other day, ten at most.
 */
export const backupsToKeep = (backups: BackupInfo[]): Set<string> => {
  const day = (backup: BackupInfo) => backup.at.slice(0, 10);
  const today = backups[0] ? day(backups[0]) : '';
  const keep = new Set(backups.slice(0, 1).map(backup => backup.name));
  for (const reason of beforeReasons) {
    const newest = backups.find(backup => backup.reason === reason);
    if (newest) keep.add(newest.name);
  }
  const ofDay = new Map<string, number>();
  for (const backup of backups) {
    const soFar = ofDay.get(day(backup)) ?? 0;
    if (soFar >= (day(backup) === today ? mostOfToday : 1)) continue;
    ofDay.set(day(backup), soFar + 1);
    if (keep.size < mostBackups) keep.add(backup.name);
  }
  return keep;
};

const removeBackup = (dir: string, name: string) => {
  const { folder } = backupPaths(dir, name);
  // Renamed first, so that one half removed is never taken for a backup.
  if (!unfinished.test(name)) renameSync(folder, `${folder}.part`);
  rmSync(unfinished.test(name) ? folder : `${folder}.part`, { recursive: true, force: true });
};

const removeSurplus = (dir: string, alsoKeep: string | undefined) => {
  for (const name of readdirSync(layout(dir).backups)) if (unfinished.test(name)) removeBackup(dir, name);
  const backups = allBackups(dir);
  const keep = backupsToKeep(backups);
  for (const { name } of backups) if (!keep.has(name) && name !== alsoKeep) removeBackup(dir, name);
};

const freeName = (dir: string, at: string): string => {
  const base = at.replaceAll(':', '-').replace(/\.\d+Z$/, 'Z');
  const taken = (name: string) => existsSync(backupPaths(dir, name).folder);
  if (!taken(base)) return base;
  let count = 2;
  while (taken(`${base}-${count}`)) count++;
  return `${base}-${count}`;
};

/** Reads a copy back and describes it. Throws CollectionError 'damaged' where the copy is not what it was taken from. */
const describeCopy = (path: string, source: Database): Pick<Manifest, 'tables' | 'photos' | 'schema'> => {
  const copy = openReader(path);
  try {
    const tables = tableHashes(copy);
    const differing = differingTables(tables, tableHashes(source));
    const check = copy.pragma('quick_check(1)', { simple: true });
    if (check !== 'ok' || differing.length > 0)
      throw new CollectionError(
        'damaged',
        `The backup was not made: its copy did not read back as it was written (${differing.join(', ') || check}). Check the collection, and the disk.`,
      );
    return {
      tables,
      photos: photoHashes(copy),
      schema: copy.pragma('user_version', { simple: true }) as number,
    };
  } finally {
    copy.close();
  }
};

/**
 * Copies an open database into the collection's backups: VACUUM INTO a temporary folder, read back and compared, made
 * durable, and only then put in its place; then older backups beyond those to keep go (`replacedBy`, the one about to be
 * restored, stays in any case). Without a transaction open.
 */
export const writeBackup = (
  dir: string,
  sqlite: Database,
  { at, reason, replacedBy }: { at: string; reason: string; replacedBy?: string },
): BackupInfo => {
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
    const sequence = (allBackups(dir)[0]?.sequence ?? 0) + 1;
    const sha256 = sha256Of(readFileSync(temporary.database));
    const replaced = replacedBy !== undefined && { replacedBy };
    const manifest: Manifest = { sequence, at, reason, bytes, sha256, ...replaced, ...described };
    writeWhole(temporary.manifest, `${JSON.stringify(manifest, null, 1)}\n`);
    renameSync(temporary.folder, final.folder);
    syncFolder(backups);
    removeSurplus(dir, replacedBy);
    return { name, at, reason, bytes, ...replaced };
  } catch (error) {
    rmSync(temporary.folder, { recursive: true, force: true });
    throw error;
  }
};

/**
 * Makes a backup of an open collection. It holds every row and the list of photographs with their hashes, not the
 * photographs themselves. Throws CollectionError 'disk-full', 'read-only' or 'damaged'; earlier backups then stay.
 */
export const backUp = (
  collection: Collection,
  { at, reason }: { at: string; reason: string },
): Promise<BackupInfo> =>
  explain(layout(collection.dir).backups, async () => {
    const made = await collection.writer
      .connection()
      .execute(async () => writeBackup(collection.dir, collection.sqlite, { at, reason }));
    collection.backedUpRows = collection.rowsWritten();
    return made;
  });

/** Makes the day's backup where something changed and the newest backup is of another day; null where none is due. */
export const backUpIfDue = async (
  collection: Collection,
  { at }: { at: string },
): Promise<BackupInfo | null> => {
  if (collection.readOnly || collection.rowsWritten() === collection.backedUpRows) return null;
  const [newest] = await listBackups(collection.dir);
  if (newest?.at.slice(0, 10) === at.slice(0, 10)) return null;
  return backUp(collection, { at, reason: 'daily' });
};

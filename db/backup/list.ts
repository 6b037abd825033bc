import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { BackupFault } from '../../valuation/wording/storage/facts.ts';
import { backupFiles, backupFolders, layout } from '../file/layout.ts';
import { type Manifest, readManifest } from './manifest.ts';

export type { BackupFault };

/** A folder in `backups/` as lists show it. */
export interface BackupInfo {
  name: string;
  /**
   * 'set aside': a damaged state as it lay, put away before a restore; 'other': a folder that
   * Playworn did not make.
   */
  kind: 'backup' | 'set aside' | 'other';
  /** When it was made, why, and how large its database was; null where its description cannot be believed. */
  at: string | null;
  reason: string | null;
  bytes: number | null;
  holds: { cars: number; lots: number; photographs: number } | null;
  /** Id of the collection that it is a state of; null where it does not say. */
  collection: string | null;
  /** For the state from before a restore: the name of the backup that took its place. */
  replacedBy?: string;
  /** What is wrong with it, as far as that shows without reading its database; null where nothing does. */
  fault: BackupFault | null;
}

/**
 * Where a backup's parts lie. A backup is a folder that appears whole: the database's copy and its manifest.
 */
export const backupPaths = (dir: string, name: string) => {
  const folder = join(layout(dir).backups, name);
  return {
    folder,
    database: join(folder, backupFiles.database),
    manifest: join(folder, backupFiles.manifest),
  };
};

/** A backup whose description can be believed. */
export interface DescribedBackup {
  name: string;
  manifest: Manifest;
}

/**
 * Those whose descriptions can be believed, newest first by the order in which they were made and
 * not by the clock.
 */
export const describedBackups = (dir: string): DescribedBackup[] =>
  backupFolders(dir)
    .flatMap(name => {
      const read = readManifest(backupPaths(dir, name).manifest);
      return 'manifest' in read ? [{ name, manifest: read.manifest }] : [];
    })
    .sort((a, b) => b.manifest.sequence - a.manifest.sequence);

const described = (dir: string, { name, manifest }: DescribedBackup): BackupInfo => {
  const { at, reason, bytes, collection, replacedBy, tables, photos } = manifest;
  const rows = (table: string) => tables[table]?.rows ?? 0;
  return {
    name,
    kind: 'backup',
    at,
    reason,
    bytes,
    holds: { cars: rows('car'), lots: rows('lot'), photographs: photos.length },
    collection: collection ?? null,
    ...(replacedBy !== undefined && { replacedBy }),
    fault: databaseFault(backupPaths(dir, name).database, bytes),
  };
};

const databaseFault = (path: string, bytes: number): BackupFault | null => {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat?.isFile()) return { kind: 'database-missing' };
  return stat.size === bytes ? null : { kind: 'database-altered' };
};

const setAsideName = /^set-aside-/;
/** As we name our folders: the instant at which one was made. */
const ownName = /^\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}Z(-\d+)?$/;

const undescribed = (dir: string, name: string): BackupInfo => {
  const paths = backupPaths(dir, name);
  const setAside = setAsideName.test(name);
  const ours = ownName.test(name) || existsSync(paths.manifest) || existsSync(paths.database);
  const read = readManifest(paths.manifest);
  return {
    name,
    kind: setAside ? 'set aside' : ours ? 'backup' : 'other',
    at: null,
    reason: null,
    bytes: statSync(paths.database, { throwIfNoEntry: false })?.size ?? null,
    holds: null,
    collection: null,
    fault: setAside || !ours || !('fault' in read) ? null : { kind: read.fault },
  };
};

/**
 * Every folder in a collection's `backups/`, sound or not: first those whose description can be believed,
 * newest first by the order in which they were made and not by the clock.
 */
export const listBackups = async (dir: string): Promise<BackupInfo[]> => {
  const sound = describedBackups(dir);
  const names = new Set(sound.map(backup => backup.name));
  const rest = backupFolders(dir).filter(name => !names.has(name));
  return [
    ...sound.map(backup => described(dir, backup)),
    ...rest.toReversed().map(name => undescribed(dir, name)),
  ];
};

/**
 * The backup nearest to what the collection last held, of all given newest first: the newest, or where that
 * is the state that a restore gave up, the backup that took its place; undefined where there is none in which
 * nothing is wrong.
 */
export const nearestBackup = (backups: BackupInfo[]): BackupInfo | undefined => {
  const sound = backups.filter(backup => backup.kind === 'backup' && !backup.fault);
  return sound.find(({ name }) => name === sound[0]?.replacedBy) ?? sound[0];
};

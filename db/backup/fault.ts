import { existsSync, readFileSync } from 'node:fs';
import { openReader } from '../file/connection.ts';
import { sha256Of } from '../file/files.ts';
import { type BackupFault, backupPaths } from './list.ts';
import { differingTables, readManifest, tableHashes } from './manifest.ts';

const detailOf = (error: unknown): string => {
  const code = error instanceof Error && 'code' in error ? `${error.code}: ` : '';
  return `${code}${error instanceof Error ? error.message : error}`;
};

/** What is wrong inside a copy of the database, by SQLite's own checks; undefined where nothing is. */
export const faultOfCopy = (path: string): BackupFault | undefined => {
  try {
    const copy = openReader(path);
    try {
      const check = copy.pragma('integrity_check(1)', { simple: true });
      return check === 'ok' ? undefined : { kind: 'structure', detail: String(check) };
    } finally {
      copy.close();
    }
  } catch (error) {
    return { kind: 'unreadable', detail: detailOf(error) };
  }
};

/**
 * What is wrong with a backup, or undefined where all of it is as when it was made. Reads all of
 * it; never throws.
 */
export const faultOfBackup = (dir: string, name: string): BackupFault | undefined => {
  const paths = backupPaths(dir, name);
  try {
    const read = readManifest(paths.manifest);
    if (!existsSync(paths.database)) return { kind: 'database-missing' };
    if ('fault' in read) return { kind: read.fault };
    if (sha256Of(readFileSync(paths.database)) !== read.manifest.sha256) return { kind: 'database-altered' };
    const copy = openReader(paths.database);
    try {
      const tables = differingTables(read.manifest.tables, tableHashes(copy));
      if (tables.length > 0) return { kind: 'tables-differ', tables };
    } finally {
      copy.close();
    }
    return faultOfCopy(paths.database);
  } catch (error) {
    return { kind: 'unreadable', detail: detailOf(error) };
  }
};

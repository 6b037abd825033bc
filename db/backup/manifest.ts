import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import { rowAsJson, tablesOf } from '../history/tracking.ts';

/** What a backup says of itself, so that any change of a single bit in it can be told. */
export interface Manifest {
  /** Counts up with each backup of a collection: the newest is the highest, whatever the clock said. */
  sequence: number;
  at: string;
  reason: string;
  schema: number;
  bytes: number;
  /** SHA-256 of the database file. */
  sha256: string;
  /** Of every table its rows and the SHA-256 of their content, independent of how the file lays them out. */
  tables: Record<string, { rows: number; sha256: string }>;
  /** For the state from before a restore: the name of the backup that took its place. */
  replacedBy?: string;
  /** SHA-256 of every photograph that belongs to it. The photographs lie in the photo folder alone. */
  photos: string[];
}

/** Rows and content hash of every ordinary table: SHA-256 over each row as JSON, in the order of their numbers. */
export const tableHashes = (sqlite: Database): Manifest['tables'] => {
  const hashes: Manifest['tables'] = {};
  for (const table of tablesOf(sqlite)) {
    const hash = createHash('sha256');
    let rows = 0;
    const json = sqlite
      .prepare(`SELECT ${rowAsJson(table, 't')} FROM "${table.name}" t ORDER BY t.rowid`)
      .pluck();
    for (const row of json.iterate()) {
      hash.update(`${row}\n`);
      rows++;
    }
    hashes[table.name] = { rows, sha256: hash.digest('hex') };
  }
  return hashes;
};

/** The tables whose content differs between two lists of hashes. */
export const differingTables = (a: Manifest['tables'], b: Manifest['tables']): string[] =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])]
    .filter(name => a[name]?.sha256 !== b[name]?.sha256)
    .sort();

/** SHA-256 of every photograph the collection refers to, in order. */
export const photoHashes = (sqlite: Database): string[] =>
  sqlite.prepare('SELECT DISTINCT sha256 FROM photo ORDER BY sha256').pluck().all() as string[];

/** SHA-256 of bytes, as 64 hexadecimal digits. */
export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A backup's manifest, or undefined where it is missing or no manifest of ours. */
export const readManifest = (path: string): Manifest | undefined => {
  try {
    const manifest: Manifest = JSON.parse(readFileSync(path, 'utf8'));
    const whole =
      Number.isSafeInteger(manifest.sequence) &&
      [manifest.at, manifest.reason, manifest.sha256].every(text => typeof text === 'string') &&
      Number.isSafeInteger(manifest.bytes) &&
      Array.isArray(manifest.photos) &&
      typeof manifest.tables === 'object';
    return whole ? manifest : undefined;
  } catch {
    return undefined;
  }
};

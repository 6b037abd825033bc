import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import { sha256Of } from '../file/files.ts';
import { rowAsJson, tablesOf } from '../history/tracking.ts';

/** What a backup says of itself, so that any change of a single bit in it can be told. */
export interface Manifest {
  /** Id of the collection that it is a state of; those made before collections had one say none. */
  collection?: string;
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
  /** How far history had come: as long as it says the same, nothing has been done since. */
  history?: string;
  /** For the state from before a restore: the name of the backup that took its place. */
  replacedBy?: string;
  /** SHA-256 of every photograph that belongs to it. The photographs lie in the photo folder alone. */
  photos: string[];
}

/**
 * Rows and content hash of every ordinary table: SHA-256 over each row as JSON, in the order
 * of their numbers.
 */
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

/**
 * Tells how far history has come, in one value that changes with every action, undo and redo, but
 * not as old ones go.
 */
export const historyMark = (sqlite: Database): string =>
  JSON.stringify(
    sqlite
      .prepare(
        'SELECT id, label, made_at, (SELECT sum(undone) FROM change) FROM change ORDER BY id DESC LIMIT 1',
      )
      .raw()
      .get() ?? null,
  );

const withoutSeal = (manifest: Manifest) => JSON.stringify(manifest, null, 1);
const sealOf = (manifest: Manifest) => sha256Of(Buffer.from(withoutSeal(manifest)));

/** The manifest as the text of its file, its own hash with it. */
export const manifestText = (manifest: Manifest): string =>
  `${JSON.stringify({ ...manifest, seal: sealOf(manifest) }, null, 1)}\n`;

/** Why a manifest cannot be believed. */
export type ManifestFault = 'description-missing' | 'description-unreadable' | 'description-altered';

/** What a manifest had before it carried its own hash. */
const unsealedKeys = /^(sequence|at|reason|bytes|sha256|replacedBy|tables|photos|schema)$/;

const hasItsParts = ({ sequence, at, reason, sha256, bytes, schema, tables, photos }: Manifest): boolean =>
  [sequence, bytes, schema].every(Number.isSafeInteger) &&
  [at, reason, sha256].every(text => typeof text === 'string') &&
  Array.isArray(photos) &&
  typeof tables === 'object' &&
  tables !== null;

const parsed = (text: string): (Manifest & { seal?: string }) | undefined => {
  try {
    const manifest: Manifest = JSON.parse(text);
    return typeof manifest === 'object' && manifest !== null && hasItsParts(manifest) ? manifest : undefined;
  } catch {
    return undefined;
  }
};

/** A backup's manifest, or what is wrong with it: any flipped bit in its file is told. */
export const readManifest = (path: string): { manifest: Manifest } | { fault: ManifestFault } => {
  if (!existsSync(path)) return { fault: 'description-missing' };
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    return { fault: 'description-unreadable' };
  }
  const found = parsed(text);
  if (!found) return { fault: 'description-unreadable' };
  const { seal, ...manifest } = found;
  const before = seal === undefined && Object.keys(manifest).every(key => unsealedKeys.test(key));
  const expected = before ? `${withoutSeal(manifest)}\n` : manifestText(manifest);
  return text === expected ? { manifest } : { fault: 'description-altered' };
};

import { closeSync, openSync, readSync } from 'node:fs';
import { CollectionError } from '../errors.ts';
import type { OpenMark } from './lock.ts';

/**
 * First salt of a write-ahead log, or undefined when there is no log with a header. SQLite draws it at random for a
 * new log and adds one each time it starts the log anew, so that a log left beside a database can be told from one that
 * belongs to another. Formula source: SQLite's file format, "WAL File Format".
 */
export const readLogSalt = (path: string): number | undefined => {
  let handle: number;
  try {
    handle = openSync(path, 'r');
  } catch {
    return undefined;
  }
  try {
    const bytes = Buffer.alloc(32);
    if (readSync(handle, bytes, 0, 32, 0) < 32) return undefined;
    return (bytes.readUInt32BE(0) & 0xfffffffe) >>> 0 === 0x377f0682 ? bytes.readUInt32BE(16) : undefined;
  } finally {
    closeSync(handle);
  }
};

/** Restarts that one sitting can plausibly see; two random salts fall this close once in 65,536 pairs. */
const plausibleRestarts = 1 << 16;

/** True when a log whose salt is `now` can have grown out of the one whose salt was `then`. */
const isSameLog = (then: number, now: number): boolean => (now - then) >>> 0 < plausibleRestarts;

const notOurLog = (path: string) =>
  new CollectionError(
    'damaged',
    `${path} was not left there by this collection and could replace its content. Nothing was changed. If the collection was copied, copy its whole folder again; otherwise move that file away.`,
  );

/**
 * Compares the log beside a closed collection with what its last holder noted (nothing, after a clean close). Returns
 * what the owner should know, as sentences; throws CollectionError 'damaged' for a log of another database.
 */
export const checkLog = (path: string, left: OpenMark | undefined): string[] => {
  const salt = readLogSalt(path);
  if (salt !== undefined && !left) throw notOurLog(path);
  if (left?.logSalt === undefined) return [];
  if (salt === undefined)
    return [
      'The last session did not close, and its last changes are missing: its write-ahead file is gone.',
    ];
  if (!isSameLog(left.logSalt, salt)) throw notOurLog(path);
  return [];
};

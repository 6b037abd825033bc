import { closeSync, openSync, readSync } from 'node:fs';

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

/** Restarts that one sitting can plausibly see; two random salts fall this close once in some four thousand pairs. */
const plausibleRestarts = 1 << 20;

/** True when a log whose salt is `now` can have grown out of the one whose salt was `then`. */
export const isSameLog = (then: number, now: number): boolean => (now - then) >>> 0 < plausibleRestarts;

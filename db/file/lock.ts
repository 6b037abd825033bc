import { existsSync, readFileSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import type { Host } from '../../valuation/wording/storage/facts.ts';
import { CollectionError } from '../errors.ts';
import { writeWhole } from './files.ts';
import { layout } from './layout.ts';

export type { Host };

/** Kept beside the lock while a collection is open: who holds it, and the mark of its write-ahead log. */
export interface OpenMark {
  host: Host;
  pid: number;
  since: string;
  /** First salt of the write-ahead log when the collection was opened, see wal-lineage. */
  walSalt?: number;
  /** The run of the machine, where the system tells: the log's index in memory is only as good as that. */
  boot?: string;
}

export interface Lock {
  /** Left behind by a holder that did not close: its collection needs a check. */
  leftBehind: OpenMark | undefined;
  mark(mark: OpenMark): void;
  /** Releases the lock; `clean` also removes the mark, so that the next opening needs no check. */
  release(clean: boolean): void;
}

const hosts: readonly string[] = ['window', 'browser', 'command line'] satisfies Host[];

const readMark = (path: string): OpenMark | undefined => {
  try {
    const mark: OpenMark = JSON.parse(readFileSync(path, 'utf8'));
    return typeof mark.pid === 'number' && hosts.includes(mark.host) ? mark : undefined;
  } catch {
    return undefined;
  }
};

const held = (dir: string): CollectionError => {
  const mark = readMark(layout(dir).openMark);
  const holder = mark ? { host: mark.host, pid: mark.pid, since: mark.since } : null;
  return new CollectionError({ kind: 'held', dir, holder });
};

/** Our lock is an empty file. */
const notALock = (path: string) => new CollectionError({ kind: 'not-a-lock', path });

/**
 * Takes the collection's lock or throws CollectionError 'locked' naming the holder. The lock is an
 * exclusive SQLite transaction on a file of its own: the operating system lets go of it when the process
 * ends, however it ends.
 */
export const takeLock = (dir: string): Lock => {
  const paths = layout(dir);
  const handle = new Database(paths.lock, { timeout: 0 });
  try {
    handle.pragma('journal_mode = MEMORY');
    handle.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    handle.close();
    if (error instanceof Database.SqliteError && /^SQLITE_(BUSY|LOCKED)/.test(error.code)) throw held(dir);
    if (error instanceof Database.SqliteError && /^SQLITE_(NOTADB|CORRUPT)/.test(error.code))
      throw notALock(paths.lock);
    throw error;
  }
  const unclean = existsSync(paths.openMark);
  const unknown: OpenMark = { host: 'window', pid: 0, since: '' };
  return {
    leftBehind: unclean ? (readMark(paths.openMark) ?? unknown) : undefined,
    mark: mark => writeWhole(paths.openMark, `${JSON.stringify(mark)}\n`),
    release: clean => {
      if (clean) rmSync(paths.openMark, { force: true });
      handle.close();
    },
  };
};

/** Names this run of the machine, where the system tells (Linux does); a power cut or restart changes it. */
export const bootOfMachine = (): string | undefined => {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  } catch {
    return undefined;
  }
};

import { existsSync, readFileSync, rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { CollectionError } from '../errors.ts';
import { writeWhole } from './files.ts';
import { layout } from './layout.ts';

/** The program that has a collection open. */
export type Host = 'window' | 'browser' | 'command line';

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

const hostNames: Record<Host, string> = {
  window: 'the window',
  browser: 'browser mode',
  'command line': 'the command line',
};

const readMark = (path: string): OpenMark | undefined => {
  try {
    const mark: OpenMark = JSON.parse(readFileSync(path, 'utf8'));
    return typeof mark.pid === 'number' && mark.host in hostNames ? mark : undefined;
  } catch {
    return undefined;
  }
};

const refusal = (dir: string): CollectionError => {
  const holder = readMark(layout(dir).openMark);
  const who = holder
    ? `${hostNames[holder.host]} (process ${holder.pid}, since ${holder.since})`
    : 'another program';
  return new CollectionError(
    'locked',
    `The collection in ${dir} is already open in ${who}. Close it there first.`,
  );
};

/** Our lock is an empty file. */
const notALock = (path: string) =>
  new CollectionError(
    'obstructed',
    `${path} is not a lock that Playworn made: something else wrote into it. The collection itself was not touched. Move that file away, then open the collection again.`,
    { fault: { kind: 'obstructed', path, expected: 'file' } },
  );

/**
 * Takes the collection's lock or throws CollectionError 'locked' naming the holder. The lock is an exclusive SQLite
 * transaction on a file of its own: the operating system lets go of it when the process ends, however it ends.
 */
export const takeLock = (dir: string): Lock => {
  const paths = layout(dir);
  const handle = new Database(paths.lock, { timeout: 0 });
  try {
    handle.pragma('journal_mode = MEMORY');
    handle.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    handle.close();
    if (error instanceof Database.SqliteError && /^SQLITE_(BUSY|LOCKED)/.test(error.code)) throw refusal(dir);
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

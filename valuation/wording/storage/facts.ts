/** The program that has a collection open. */
export type Host = 'window' | 'browser' | 'command line';

/** What exactly is wrong with a collection's files. */
export type StorageFault =
  /** The database is gone; so many folders in `backups/` hold a state of it. */
  | { kind: 'gone'; backups: number }
  | { kind: 'empty' }
  /** The beginning is no database's. */
  | { kind: 'overwritten' }
  | { kind: 'cut-short'; bytes: number; expectedBytes: number }
  /** SQLite's own words for what does not fit inside the file. */
  | { kind: 'structure'; detail: string }
  /** The write-ahead log beside the database belongs to another one. */
  | { kind: 'foreign-wal' }
  /** The database is a symbolic link, or the same file stands in `names` folders. */
  | { kind: 'symbolic-link'; target: string }
  | { kind: 'hard-links'; names: number }
  /** Something of another kind stands where a file or folder of ours belongs. */
  | { kind: 'obstructed'; path: string; expected: 'file' | 'folder' };

/** What is wrong with a folder in `backups/`. */
export type BackupFault =
  | { kind: 'description-missing' | 'description-unreadable' | 'description-altered' }
  | { kind: 'database-missing' | 'database-altered' }
  | { kind: 'tables-differ'; tables: string[] }
  /** SQLite's own words for what does not fit inside the copy. */
  | { kind: 'structure'; detail: string }
  /** The system could not read it to its end. */
  | { kind: 'unreadable'; detail: string };

/** Why the last changes written into a write-ahead log may be missing. */
export type WalFault =
  /** There was a log, and it is gone. */
  | 'gone'
  /** Its header does not read: SQLite takes nothing of it. */
  | 'header'
  /** Frames of this log lie behind the last one that reads: SQLite stops at the first that does not. */
  | 'frames'
  /** It ends within a frame. */
  | 'cut-short'
  /** The log's index counted more frames than there are. */
  | 'shorter-than-index';

/** What a check is looking at. */
export type CheckStep =
  | { kind: 'database' }
  | { kind: 'references' }
  | { kind: 'search' }
  | { kind: 'rows' }
  | { kind: 'photograph'; number: number; of: number }
  | { kind: 'backup'; name: string };

/** What a check found; `findingText` puts each into words. */
export type Finding = { level: 'ok' | 'warning' | 'damage' } & (
  | { subject: 'database'; fault: StorageFault | null }
  | { subject: 'references'; broken: number; tables: string[] }
  /** Kinds of rows that searching may miss or find wrongly; rebuilding mends it. */
  | { subject: 'search'; incomplete: string[] }
  /** Tables that differ from the newest backup though nothing was done since. */
  | { subject: 'rows'; differing: string[]; backup: string }
  | {
      subject: 'photograph';
      sha256: string;
      path: string | null;
      fault: 'missing' | 'altered' | 'unreadable';
    }
  | { subject: 'photographs'; intact: number; of: number; spare: number }
  /** Smaller copies that did not decode and were made again, and those that could not be. */
  | { subject: 'copies'; remade: number; failed: number }
  | { subject: 'backup'; name: string; fault: BackupFault }
  | { subject: 'backups'; sound: number; of: number; setAside: number; other: number }
  /** A part of the check that could not be carried out to its end. */
  | { subject: 'step'; step: CheckStep; detail: string }
  | { subject: 'limits' }
);

/** True where rebuilding indexes and the search index may mend what was found. */
export const canBeRebuilt = (finding: Finding): boolean =>
  (finding.subject === 'search' && finding.level !== 'ok') ||
  (finding.subject === 'database' &&
    finding.fault?.kind === 'structure' &&
    /index|fts5/i.test(finding.fault.detail));

/** What SQLite or the system said while `place` was read or written; `detail` in their words. */
export interface SystemRefusal {
  kind: 'disk-full' | 'not-writable' | 'damaged' | 'in-use' | 'disk-error' | 'in-the-way';
  place: string;
  detail: string;
}

/**
 * Why a collection, a backup, an archive or a photograph could not be opened, read or written;
 * `refusalText` words it.
 */
export type Refusal =
  | { kind: 'no-collection' | 'collection-exists' | 'closed' | 'no-database'; place: string }
  /** The database is gone; so many folders in `backups/` hold a state of it. */
  | { kind: 'needs-restoring'; dir: string; backups: number }
  /** A file is not as it must be. */
  | { kind: 'file'; path: string; fault: Exclude<StorageFault, { kind: 'gone' }> }
  | { kind: 'foreign'; path: string }
  | { kind: 'newer'; path: string; schema: number; known: number }
  /** A lock that something else wrote into. */
  | { kind: 'not-a-lock'; path: string }
  /** `holder` is null where it left no word of itself. */
  | { kind: 'held'; dir: string; holder: { host: Host; pid: number; since: string } | null }
  | SystemRefusal
  | { kind: 'folder-not-made'; path: string }
  | { kind: 'broken-migration'; rows: number }
  | { kind: 'old-runtime'; node: string }
  | { kind: 'no-backup'; name: string; folder: string }
  | { kind: 'damaged-backup'; name: string; fault: BackupFault }
  | { kind: 'backup-not-made'; differing: string }
  | { kind: 'backup-gone'; name: string }
  | { kind: 'no-archive' | 'name-taken' | 'folder-not-empty'; path: string }
  | { kind: 'unreadable-archive'; path: string; zip: boolean }
  | { kind: 'newer-archive'; schema: number }
  | { kind: 'archive-without-database'; path: string; files: string[] }
  | { kind: 'photo-empty' | 'photo-heic' | 'photo-drawing' | 'photo-unknown' | 'photo-unreadable' }
  | { kind: 'photo-too-large'; width: number; height: number; mostPixels: number }
  | { kind: 'photo-missing'; sha256: string; folder: string }
  | { kind: 'photo-altered'; path: string }
  | { kind: 'nothing-to-undo' | 'nothing-to-redo' };

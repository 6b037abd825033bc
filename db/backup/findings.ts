import type { StorageFault } from '../errors.ts';
import type { BackupFault } from './list.ts';

/** What a check found, as facts; `findingText` puts each into words. */
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

/** What a check is looking at. */
export type CheckStep =
  | { kind: 'database' }
  | { kind: 'references' }
  | { kind: 'search' }
  | { kind: 'rows' }
  | { kind: 'photograph'; number: number; of: number }
  | { kind: 'backup'; name: string };

/** True where rebuilding indexes and the search index may mend what was found. */
export const canBeRebuilt = (finding: Finding): boolean =>
  (finding.subject === 'search' && finding.level !== 'ok') ||
  (finding.subject === 'database' &&
    finding.fault?.kind === 'structure' &&
    /index|fts5/i.test(finding.fault.detail));

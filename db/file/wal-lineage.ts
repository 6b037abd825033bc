import { CollectionError } from '../errors.ts';
import type { OpenMark } from './lock.ts';
import { surveyWal, type WalFault, type WalSurvey } from './wal-frames.ts';

/*
 * A log left beside a database is told from one that belongs to another by its first salt, which is noted
 * when the collection is opened and counts up by one with each new start of the log.
 */

/** Restarts that one sitting can plausibly see; two random salts fall this close once in 65,536 pairs. */
const plausibleRestarts = 1 << 16;

/** True when a log whose salt is `now` can have grown out of the one whose salt was `then`. */
const isSameLog = (then: number, now: number): boolean => (now - then) >>> 0 < plausibleRestarts;

const notOurWal = (path: string) =>
  new CollectionError({ kind: 'file', path, fault: { kind: 'foreign-wal' } });

/**
 * Compares the log beside a closed collection with what its last holder noted (nothing, after a clean close),
 * and reads it to its end. Returns why the last changes may be missing, or undefined; throws CollectionError
 * 'damaged' for a log of another database.
 */
export const checkWal = (
  { wal, shm }: { wal: string; shm: string },
  left: OpenMark | undefined,
  boot: string | undefined,
): WalFault | undefined => {
  const found: WalSurvey = surveyWal(wal, shm, boot !== undefined && left?.boot === boot);
  if (!left) {
    if (found.salt !== undefined) throw notOurWal(wal);
    return undefined;
  }
  if (found.fault === 'gone') return left.walSalt === undefined ? undefined : 'gone';
  if (found.salt !== undefined && left.walSalt !== undefined && !isSameLog(left.walSalt, found.salt))
    throw notOurWal(wal);
  return found.fault;
};

import type { Refusal, StorageFault, SystemRefusal } from '../valuation/wording/storage/facts.ts';
import { refusalText } from '../valuation/wording/storage/refusal-text.ts';

export type { StorageFault } from '../valuation/wording/storage/facts.ts';

/** Why a collection could not be opened, read or written: a code to branch on. */
export type CollectionErrorCode =
  | 'missing'
  | 'needs-restoring'
  | 'exists'
  | 'foreign'
  | 'newer'
  | 'damaged'
  | 'linked'
  | 'obstructed'
  | 'locked'
  | 'read-only'
  | 'disk-full'
  | 'old-runtime'
  | 'photo-refused'
  | 'photo-missing'
  | 'nothing-to-undo'
  | 'closed';

const codes: Record<Refusal['kind'], CollectionErrorCode> = {
  'no-collection': 'missing',
  'no-database': 'missing',
  'no-backup': 'missing',
  'no-archive': 'missing',
  'needs-restoring': 'needs-restoring',
  'collection-exists': 'exists',
  'name-taken': 'exists',
  'folder-not-empty': 'exists',
  foreign: 'foreign',
  newer: 'newer',
  'newer-archive': 'newer',
  file: 'damaged',
  damaged: 'damaged',
  'disk-error': 'damaged',
  'broken-migration': 'damaged',
  'damaged-backup': 'damaged',
  'backup-not-made': 'damaged',
  'backup-gone': 'damaged',
  'unreadable-archive': 'damaged',
  'archive-without-database': 'damaged',
  'photo-altered': 'damaged',
  'not-a-lock': 'obstructed',
  'in-the-way': 'obstructed',
  held: 'locked',
  'in-use': 'locked',
  'not-writable': 'read-only',
  'folder-not-made': 'read-only',
  'disk-full': 'disk-full',
  'old-runtime': 'old-runtime',
  'photo-empty': 'photo-refused',
  'photo-heic': 'photo-refused',
  'photo-drawing': 'photo-refused',
  'photo-unknown': 'photo-refused',
  'photo-unreadable': 'photo-refused',
  'photo-too-large': 'photo-refused',
  'photo-missing': 'photo-missing',
  'nothing-to-undo': 'nothing-to-undo',
  'nothing-to-redo': 'nothing-to-undo',
  closed: 'closed',
};

const codesOfFaults: Partial<Record<StorageFault['kind'], CollectionErrorCode>> = {
  'symbolic-link': 'linked',
  'hard-links': 'linked',
  obstructed: 'obstructed',
};

const codeOf = (refusal: Refusal): CollectionErrorCode =>
  (refusal.kind === 'file' ? codesOfFaults[refusal.fault.kind] : undefined) ?? codes[refusal.kind];

const faultOf = (refusal: Refusal): StorageFault | undefined => {
  switch (refusal.kind) {
    case 'file':
      return refusal.fault;
    case 'needs-restoring':
      return { kind: 'gone', backups: refusal.backups };
    case 'not-a-lock':
      return { kind: 'obstructed', path: refusal.path, expected: 'file' };
    case 'damaged':
    case 'disk-error':
      return { kind: 'structure', detail: refusal.detail };
    default:
      return undefined;
  }
};

/**
 * A refusal as a fact, with a code that a program can branch on; the message is the same in words: what,
 * where, what to do.
 */
export class CollectionError extends Error {
  readonly refusal: Refusal;
  readonly code: CollectionErrorCode;
  /** What exactly is wrong with the collection's files, where more than the code is known. */
  readonly fault: StorageFault | undefined;

  constructor(refusal: Refusal, options?: ErrorOptions) {
    super(refusalText(refusal), options);
    this.name = 'CollectionError';
    this.refusal = refusal;
    this.code = codeOf(refusal);
    this.fault = faultOf(refusal);
  }
}

/** The code that SQLite or the operating system gave an error, such as SQLITE_FULL or ENOSPC. */
const systemCode = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

const refusals: [RegExp, SystemRefusal['kind']][] = [
  [/^(SQLITE_FULL|ENOSPC|EDQUOT)/, 'disk-full'],
  [/^(SQLITE_READONLY|SQLITE_CANTOPEN|SQLITE_PERM|EROFS|EACCES|EPERM)/, 'not-writable'],
  [/^(SQLITE_CORRUPT|SQLITE_NOTADB|SQLITE_FORMAT)/, 'damaged'],
  [/^(SQLITE_BUSY|SQLITE_LOCKED)/, 'in-use'],
  [/^(SQLITE_IOERR|EIO)/, 'disk-error'],
  [/^(EISDIR|ENOTDIR)/, 'in-the-way'],
];

/**
 * Turns SQLite's and the operating system's storage errors into a CollectionError; anything else
 * comes back as it is.
 */
export const asCollectionError = (error: unknown, place: string): unknown => {
  if (error instanceof CollectionError) return error;
  if (error instanceof TypeError && error.message === 'The database connection is not open')
    return new CollectionError({ kind: 'closed', place }, { cause: error });
  const code = systemCode(error);
  const kind = refusals.find(([pattern]) => pattern.test(code))?.[1];
  if (!kind) return error;
  const detail = error instanceof Error ? error.message : String(error);
  return new CollectionError({ kind, place, detail }, { cause: error });
};

/** Runs `work`, rethrowing storage errors as CollectionError about `place`. */
export const withStorageErrors = async <T>(place: string, work: () => Promise<T> | T): Promise<T> => {
  try {
    return await work();
  } catch (error) {
    throw asCollectionError(error, place);
  }
};

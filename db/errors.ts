/** Why a collection could not be opened, read or written: a code to branch on; the message is what the screens show. */
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

/** What exactly is wrong with a collection's files, where more than the code is known. */
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

interface CollectionErrorOptions extends ErrorOptions {
  fault?: StorageFault;
}

/** A failure with a reason a program can branch on and a message a person can act on: what, where, what to do. */
export class CollectionError extends Error {
  readonly code: CollectionErrorCode;
  readonly fault: StorageFault | undefined;

  constructor(
    code: CollectionErrorCode,
    message: string,
    { fault, ...options }: CollectionErrorOptions = {},
  ) {
    super(message, options);
    this.name = 'CollectionError';
    this.code = code;
    this.fault = fault;
  }
}

/** The code that SQLite or the operating system gave an error, such as SQLITE_FULL or ENOSPC. */
const systemCode = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

const sentences: [RegExp, CollectionErrorCode, (place: string) => string][] = [
  [
    /^(SQLITE_FULL|ENOSPC|EDQUOT)/,
    'disk-full',
    place =>
      `The disk that holds ${place} is full. Nothing was changed. Free some space (older ones in its backups folder may go), then try again.`,
  ],
  [
    /^(SQLITE_READONLY|SQLITE_CANTOPEN|SQLITE_PERM|EROFS|EACCES|EPERM)/,
    'read-only',
    place =>
      `${place} cannot be written. Nothing was changed. Allow writing to the folder, or move the collection to one that can be written.`,
  ],
  [
    /^(SQLITE_CORRUPT|SQLITE_NOTADB|SQLITE_FORMAT)/,
    'damaged',
    place => `${place} is damaged. Restore a backup; the present state will be saved beside it.`,
  ],
  [
    /^(SQLITE_BUSY|SQLITE_LOCKED)/,
    'locked',
    place => `${place} is in use by another program. Close that program, then try again.`,
  ],
  [
    /^(SQLITE_IOERR|EIO)/,
    'damaged',
    place =>
      `The disk reported an error while ${place} was read or written. Check the disk, then open the collection again.`,
  ],
  [
    /^(EISDIR|ENOTDIR)/,
    'obstructed',
    place =>
      `In ${place} a folder stands where a file belongs, or a file where a folder belongs. Move it away, then try again.`,
  ],
];

/** Turns SQLite's and the operating system's storage errors into a CollectionError; anything else comes back as it is. */
export const asCollectionError = (error: unknown, place: string): unknown => {
  if (error instanceof CollectionError) return error;
  if (error instanceof TypeError && error.message === 'The database connection is not open')
    return new CollectionError('closed', `The collection in ${place} has been closed. Open it again.`, {
      cause: error,
    });
  const code = systemCode(error);
  const found = sentences.find(([pattern]) => pattern.test(code));
  if (!found) return error;
  const detail = error instanceof Error ? error.message : String(error);
  return new CollectionError(found[1], found[2](place), {
    cause: error,
    ...(found[1] === 'damaged' && { fault: { kind: 'structure', detail } }),
  });
};

/** Runs `work`, rethrowing storage errors as CollectionError about `place`. */
export const withStorageErrors = async <T>(place: string, work: () => Promise<T> | T): Promise<T> => {
  try {
    return await work();
  } catch (error) {
    throw asCollectionError(error, place);
  }
};

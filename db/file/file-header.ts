import { closeSync, lstatSync, openSync, readlinkSync, readSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { schemaVersion } from '../../migrations/index.ts';
import { CollectionError } from '../errors.ts';
import { obstructed } from './files.ts';
import { applicationId, foldersWithState, layout } from './layout.ts';

interface Header {
  applicationId: number;
  userVersion: number;
  /** Bytes the file must have, or undefined where the header does not say. */
  expectedBytes: number | undefined;
}

const headerBytes = 100;

/** Reads a database file's header. Formula source: SQLite's file format, "The Database Header". */
const readHeader = (path: string): Header | undefined => {
  const handle = openSync(path, 'r');
  try {
    const bytes = Buffer.alloc(headerBytes);
    if (readSync(handle, bytes, 0, headerBytes, 0) < headerBytes) return undefined;
    if (bytes.toString('latin1', 0, 16) !== 'SQLite format 3\0') return undefined;
    const pageSize = bytes.readUInt16BE(16) === 1 ? 65_536 : bytes.readUInt16BE(16);
    const pagesAreCounted = bytes.readUInt32BE(24) === bytes.readUInt32BE(92);
    return {
      applicationId: bytes.readUInt32BE(68),
      userVersion: bytes.readUInt32BE(60),
      expectedBytes: pagesAreCounted ? bytes.readUInt32BE(28) * pageSize : undefined,
    };
  } finally {
    closeSync(handle);
  }
};

const newer = (path: string, version: number) =>
  new CollectionError(
    'newer',
    `${path} was made by a newer version of Playworn (schema ${version}; this version knows ${schemaVersion}). Nothing was changed. Update Playworn to open it.`,
  );

/** Throws 'foreign' or 'newer' for what a database says of itself once it is open, its write-ahead log included. */
export const checkOpenIdentity = (path: string, id: number, version: number, known = schemaVersion): void => {
  if (id !== applicationId) throw foreign(path);
  if (version > known) throw newer(path, version);
};

const foreign = (path: string) =>
  new CollectionError(
    'foreign',
    `${path} is not a Playworn collection. Nothing was changed. Choose another folder, or move that file away.`,
  );

const missing = (path: string) => {
  const dir = dirname(path);
  // A backup's own copy, or a file of another name, has no backups beside it.
  const backups = path === layout(dir).database ? foldersWithState(dir).length : 0;
  return backups > 0
    ? new CollectionError(
        'needs-restoring',
        `The collection in ${dir} needs restoring: collection.sqlite is gone, and ${backups === 1 ? 'a backup of it is' : `${backups} backups of it are`} there. Nothing was changed. Restore a backup ("playworn restore --collection DIR" brings back the newest), or choose another folder.`,
        { fault: { kind: 'gone', backups } },
      )
    : new CollectionError(
        'missing',
        `There is no collection at ${path}. Create one, or choose another folder.`,
      );
};

/**
 * Throws CollectionError 'linked' for a database that has another name elsewhere. SQLite keeps its log beside the name by
 * which it was opened: by two names two programs would write into one file, each unseen by the other.
 */
const refuseLinks = (path: string): void => {
  const stat = lstatSync(path);
  if (stat.isSymbolicLink()) {
    const target = resolve(dirname(path), readlinkSync(path));
    throw new CollectionError(
      'linked',
      `${path} is a link to ${target}. Nothing was changed. Open the folder in which the file itself lies; or put the file itself, with what lies beside it, in place of the link.`,
      { fault: { kind: 'symbolic-link', target } },
    );
  }
  if (stat.isFile() && stat.nlink > 1)
    throw new CollectionError(
      'linked',
      `${path} is the same file as another one elsewhere (a hard link; it has ${stat.nlink} names), and what is written through one could be lost through the other. Nothing was changed. Put a copy of the file in its place, or remove the other name.`,
      { fault: { kind: 'hard-links', names: stat.nlink } },
    );
};

/**
 * Looks at a collection's file before anything is opened, created or written, and throws CollectionError:
 * 'missing', 'needs-restoring' (gone, with backups there), 'damaged' (empty, cut short, no database), 'foreign' (another
 * program's), 'newer' (a later schema), 'obstructed', and where it is to be written 'linked'. A file shorter than its
 * header says is whole only with the rest in its log; `hasWal` tells that one lies beside it.
 */
export const checkIdentity = (
  path: string,
  hasWal: boolean,
  { known = schemaVersion, toWrite = true }: { known?: number; toWrite?: boolean } = {},
): void => {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat) throw missing(path);
  if (!stat.isFile()) throw obstructed(path, 'file');
  if (toWrite) refuseLinks(path);
  if (stat.size === 0)
    throw new CollectionError('damaged', `${path} is empty: its content is gone. Restore a backup.`, {
      fault: { kind: 'empty' },
    });
  const header = readHeader(path);
  if (!header)
    throw new CollectionError(
      'damaged',
      `${path} is not a readable database: its beginning is overwritten or cut off. Restore a backup.`,
      { fault: { kind: 'overwritten' } },
    );
  if (header.applicationId !== applicationId) throw foreign(path);
  if (header.userVersion > known) throw newer(path, header.userVersion);
  if (!hasWal && header.expectedBytes !== undefined && stat.size < header.expectedBytes)
    throw new CollectionError(
      'damaged',
      `${path} is cut short: ${stat.size} of ${header.expectedBytes} bytes are left. Restore a backup.`,
      { fault: { kind: 'cut-short', bytes: stat.size, expectedBytes: header.expectedBytes } },
    );
};

/** Throws CollectionError 'obstructed' where something of the wrong kind stands in a collection's folder. */
export const checkKinds = (dir: string): void => {
  const { database, photos, backups, thumbnails, ...files } = layout(dir);
  for (const path of Object.values(files)) {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (stat && !stat.isFile()) throw obstructed(path, 'file');
  }
  for (const path of [photos, thumbnails, backups]) {
    const stat = statSync(path, { throwIfNoEntry: false });
    if (stat && !stat.isDirectory()) throw obstructed(path, 'folder');
  }
};

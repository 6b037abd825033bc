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

const newer = (path: string, schema: number) =>
  new CollectionError({ kind: 'newer', path, schema, known: schemaVersion });

/**
 * Throws 'foreign' or 'newer' for what a database says of itself once it is open, its
 * write-ahead log included.
 */
export const checkOpenIdentity = (path: string, id: number, version: number, known = schemaVersion): void => {
  if (id !== applicationId) throw foreign(path);
  if (version > known) throw newer(path, version);
};

const foreign = (path: string) => new CollectionError({ kind: 'foreign', path });

const missing = (path: string) => {
  const dir = dirname(path);
  // A backup's own copy, or a file of another name, has no backups beside it.
  const backups = path === layout(dir).database ? foldersWithState(dir).length : 0;
  return new CollectionError(
    backups > 0 ? { kind: 'needs-restoring', dir, backups } : { kind: 'no-collection', place: path },
  );
};

/**
 * Throws CollectionError 'linked' for a database that has another name elsewhere. SQLite keeps its log
 * beside the name by which it was opened: by two names two programs would write into one file, each
 * unseen by the other.
 */
const refuseLinks = (path: string): void => {
  const stat = lstatSync(path);
  if (stat.isSymbolicLink()) {
    const target = resolve(dirname(path), readlinkSync(path));
    throw new CollectionError({ kind: 'file', path, fault: { kind: 'symbolic-link', target } });
  }
  if (stat.isFile() && stat.nlink > 1)
    throw new CollectionError({ kind: 'file', path, fault: { kind: 'hard-links', names: stat.nlink } });
};

/**
 * Looks at a collection's file before anything is opened, created or written, and throws CollectionError:
 * 'missing', 'needs-restoring' (gone, with backups there), 'damaged' (empty, cut short, no database),
 * 'foreign' (another program's), 'newer' (a later schema), 'obstructed', and where it is to be written
 * 'linked'. A file shorter than its header says is whole only with the rest in its log; `hasWal` tells that
 * one lies beside it.
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
  if (stat.size === 0) throw new CollectionError({ kind: 'file', path, fault: { kind: 'empty' } });
  const header = readHeader(path);
  if (!header) throw new CollectionError({ kind: 'file', path, fault: { kind: 'overwritten' } });
  if (header.applicationId !== applicationId) throw foreign(path);
  if (header.userVersion > known) throw newer(path, header.userVersion);
  if (!hasWal && header.expectedBytes !== undefined && stat.size < header.expectedBytes)
    throw new CollectionError({
      kind: 'file',
      path,
      fault: { kind: 'cut-short', bytes: stat.size, expectedBytes: header.expectedBytes },
    });
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

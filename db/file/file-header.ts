import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { schemaVersion } from '../../migrations/index.ts';
import { CollectionError } from '../errors.ts';
import { applicationId } from './layout.ts';

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

/**
 * Looks at a collection's file before anything is opened, created or written, and throws CollectionError:
 * 'missing', 'damaged' (empty, cut short, no database), 'foreign' (another program's), 'newer' (a later schema).
 * A file shorter than its header says is whole only with the rest in its log; `hasLog` tells that one lies beside it.
 */
export const checkIdentity = (path: string, hasLog: boolean, known = schemaVersion): void => {
  const stat = statSync(path, { throwIfNoEntry: false });
  if (!stat)
    throw new CollectionError(
      'missing',
      `There is no collection at ${path}. Create one, or choose another folder.`,
    );
  if (stat.size === 0)
    throw new CollectionError('damaged', `${path} is empty: its content is gone. Restore a backup.`);
  const header = readHeader(path);
  if (!header)
    throw new CollectionError(
      'damaged',
      `${path} is not a readable database: its beginning is overwritten or cut off. Restore a backup.`,
    );
  if (header.applicationId !== applicationId) throw foreign(path);
  if (header.userVersion > known) throw newer(path, header.userVersion);
  if (!hasLog && header.expectedBytes !== undefined && stat.size < header.expectedBytes)
    throw new CollectionError(
      'damaged',
      `${path} is cut short: ${stat.size} of ${header.expectedBytes} bytes are left. Restore a backup.`,
    );
};

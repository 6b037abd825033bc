import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { WalFault } from '../../valuation/wording/storage/facts.ts';

/** What a write-ahead log left by a killed program says of itself. */
export interface WalSurvey {
  bytes: number;
  /** First salt, which tells logs apart; undefined where there is no log, or its header is not whole. */
  salt: number | undefined;
  /**
   * Why the last changes written into it may be missing; undefined where all that was committed can be read.
   */
  fault: WalFault | undefined;
}

export type { WalFault };

const headerBytes = 32;
const frameHeaderBytes = 24;

/**
 * SQLite's running checksum over pairs of 32-bit words. Source: SQLite's file format, "Checksum Algorithm".
 */
const checksum = (bytes: Buffer, bigEndian: boolean, [a, b]: [number, number]): [number, number] => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let i = 0; i < bytes.length; i += 8) {
    a = (a + view.getUint32(i, !bigEndian) + b) >>> 0;
    b = (b + view.getUint32(i + 4, !bigEndian) + a) >>> 0;
  }
  return [a, b];
};

interface WalHeader {
  pageSize: number;
  bigEndian: boolean;
  salts: Buffer;
  sum: [number, number];
}

const sumAt = (bytes: Buffer, place: number): [number, number] => [
  bytes.readUInt32BE(place),
  bytes.readUInt32BE(place + 4),
];
const same = (a: [number, number], b: [number, number]) => a[0] === b[0] && a[1] === b[1];

const readWalHeader = (bytes: Buffer): WalHeader | undefined => {
  const magic = bytes.readUInt32BE(0);
  if ((magic & 0xfffffffe) >>> 0 !== 0x377f0682) return undefined;
  const bigEndian = (magic & 1) === 1;
  const pageSize = bytes.readUInt32BE(8);
  const sum = checksum(bytes.subarray(0, 24), bigEndian, [0, 0]);
  const sound =
    bytes.readUInt32BE(4) === 3_007_000 &&
    pageSize >= 512 &&
    pageSize <= 65_536 &&
    (pageSize & (pageSize - 1)) === 0 &&
    same(sum, sumAt(bytes, 24));
  return sound ? { pageSize, bigEndian, salts: Buffer.from(bytes.subarray(16, 24)), sum } : undefined;
};

/**
 * The frames that the log's index counted as committed, where it belongs to this log. Source: SQLite's
 * "WAL-mode File Format", the header of the WAL-index; its numbers are in the machine's own order,
 * little-endian wherever this runs.
 */
const framesIndexed = (shmPath: string, salts: Buffer): number | undefined => {
  const bytes = firstBytes(shmPath, 96);
  if (!bytes || bytes.length < 96 || !bytes.subarray(0, 48).equals(bytes.subarray(48, 96))) return undefined;
  const sum = checksum(bytes.subarray(0, 40), false, [0, 0]);
  if (bytes.readUInt32LE(40) !== sum[0] || bytes.readUInt32LE(44) !== sum[1]) return undefined;
  return bytes.subarray(32, 40).equals(salts) ? bytes.readUInt32LE(16) : undefined;
};

const firstBytes = (path: string, length: number): Buffer | undefined => {
  let handle: number;
  try {
    handle = openSync(path, 'r');
  } catch {
    return undefined;
  }
  try {
    const bytes = Buffer.alloc(length);
    return bytes.subarray(0, readSync(handle, bytes, 0, length, 0));
  } finally {
    closeSync(handle);
  }
};

/** Goes through the frames as SQLite does: up to the last commit before the first one that does not read. */
const readFrames = (handle: number, size: number, { pageSize, bigEndian, salts, sum }: WalHeader) => {
  const frame = Buffer.alloc(frameHeaderBytes + pageSize);
  const count = Math.floor((size - headerBytes) / frame.length);
  let running = sum;
  let readable = true;
  let committed = 0;
  /**
   * Frames of this log, told by its salts, behind the last that reads; one flipped bit leaves one
   * of the two whole.
   */
  let behind = 0;
  for (let i = 0; i < count; i++) {
    const place = headerBytes + i * frame.length;
    readSync(handle, frame, 0, readable ? frame.length : frameHeaderBytes, place);
    const ours = [0, 4].map(part =>
      frame.subarray(8 + part, 12 + part).equals(salts.subarray(part, part + 4)),
    );
    if (readable) {
      const next = checksum(
        frame.subarray(frameHeaderBytes),
        bigEndian,
        checksum(frame.subarray(0, 8), bigEndian, running),
      );
      readable = ours.every(Boolean) && same(next, sumAt(frame, 16));
      running = next;
      if (readable && frame.readUInt32BE(4) > 0) committed = i + 1;
    }
    if (!readable && ours.some(Boolean)) behind++;
  }
  return { committed, behind, partial: (size - headerBytes) % frame.length !== 0 };
};

/**
 * First salt of a write-ahead log, or undefined when there is no log with a sound header. SQLite draws it at
 * random for a new log and adds one each time it starts the log again.
 */
export const readWalSalt = (path: string): number | undefined => {
  const first = firstBytes(path, headerBytes);
  return first?.length === headerBytes ? readWalHeader(first)?.salts.readUInt32BE(0) : undefined;
};

/**
 * Reads the log beside a closed database to its end. `sameRun` says that the machine has not been
 * started again since: only then does the log's index tell for certain that what lies behind its last
 * frame was never committed.
 */
export const surveyWal = (walPath: string, shmPath: string, sameRun: boolean): WalSurvey => {
  const first = firstBytes(walPath, headerBytes);
  if (!first || first.length === 0) return { bytes: 0, salt: undefined, fault: 'gone' };
  if (first.length < headerBytes) return { bytes: first.length, salt: undefined, fault: 'cut-short' };
  const handle = openSync(walPath, 'r');
  try {
    const { size } = fstatSync(handle);
    const header = readWalHeader(first);
    if (!header) return { bytes: size, salt: undefined, fault: 'header' };
    const salt = header.salts.readUInt32BE(0);
    const { committed, behind, partial } = readFrames(handle, size, header);
    const indexed = framesIndexed(shmPath, header.salts);
    const fault = (): WalFault | undefined => {
      if (indexed !== undefined && indexed > committed)
        return behind > 0 ? 'frames' : partial ? 'cut-short' : 'shorter-than-index';
      if (sameRun && indexed === committed) return undefined;
      return behind > 0 ? 'frames' : partial ? 'cut-short' : undefined;
    };
    return { bytes: size, salt, fault: fault() };
  } finally {
    closeSync(handle);
  }
};

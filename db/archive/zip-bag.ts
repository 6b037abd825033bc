import { createReadStream, createWriteStream, openAsBlob, statSync } from 'node:fs';
import { join } from 'node:path';
import { Readable, Writable } from 'node:stream';
import { BlobReader, type FileEntry, ZipReader, ZipWriter } from '@zip.js/zip.js';
import { unpacked } from '../file/unpack.ts';
import { type BagSource, filesBelow } from './bag.ts';

/** Pictures, PDFs and the like are packed already. */
const packed = /\.(jpg|png|webp|avif|gif|heic|pdf)$/i;

/** The earliest day that a ZIP can name: no clock goes into the file. */
const noDay = new Date(1980, 0, 1);

/** Packs a folder into one file, everything below a folder of that name, in the order of the names. */
export const zipFolder = async (
  folder: string,
  top: string,
  path: string,
  { signal, onFile }: { signal?: AbortSignal | undefined; onFile?: (done: number, total: number) => void },
): Promise<void> => {
  const out = new ZipWriter(
    Writable.toWeb(createWriteStream(path, { flags: 'wx' })) as WritableStream<Uint8Array>,
    { useWebWorkers: false, lastModDate: noDay, extendedTimestamp: false, ...(signal && { signal }) },
  );
  const names = filesBelow(folder);
  for (const [i, name] of names.entries()) {
    signal?.throwIfAborted();
    const file = join(folder, name);
    await out.add(`${top}/${name}`, Readable.toWeb(createReadStream(file)) as ReadableStream<Uint8Array>, {
      level: packed.test(name) ? 0 : 6,
      uncompressedSize: statSync(file).size,
    });
    onFile?.(i + 1, names.length);
  }
  await out.close();
};

const plainName = /^(?!\/)(?!.*(^|\/)\.{1,2}(\/|$))[^\\:\0]+$/;

/** Beyond this a small file unpacks to no list, database or picture of ours. */
const mostRatio = 500;
const smallBytes = 50_000_000;

/**
 * A bag inside a ZIP file, in one folder at its top as RFC 8493, section 4, has it, or without one. Names
 * that would lead out of the folder, and files that swell beyond measure, are not files of the bag. Throws
 * Error where the file is no ZIP.
 */
export const zipSource = async (path: string): Promise<BagSource> => {
  const entries = new Map<string, FileEntry>();
  const reader = new ZipReader(new BlobReader(await openAsBlob(path)), { useWebWorkers: false });
  for await (const entry of reader.getEntriesGenerator()) {
    if (entry.directory || entry.encrypted || !plainName.test(entry.filename)) continue;
    if (entry.uncompressedSize > smallBytes && entry.uncompressedSize > entry.compressedSize * mostRatio)
      continue;
    entries.set(entry.filename, entry);
  }
  const declaration = [...entries.keys()].find(name => /^([^/]+\/)?bagit\.txt$/.test(name));
  const top =
    declaration?.slice(0, -'bagit.txt'.length) ?? [...entries.keys()][0]?.replace(/\/.*$/, '/') ?? '';
  const within = new Map(
    [...entries]
      .filter(([name]) => name.startsWith(top))
      .map(([name, entry]) => [name.slice(top.length), entry]),
  );
  return {
    names: new Set(within.keys()),
    open: name => unpacked(within.get(name)!),
  };
};

import { ImportFileError } from '../types.ts';

/** One file inside a ZIP archive, by its place in it. */
export interface ZipEntry {
  name: string;
  method: number;
  compressed: number;
  size: number;
  offset: number;
}

const damaged = () =>
  new ImportFileError(
    'This file cannot be read as a spreadsheet: it is cut short or damaged. Open it in a spreadsheet program, save it as .xlsx or .csv, and import that.',
  );

const endMark = 0x06054b50;
const entryMark = 0x02014b50;
const localMark = 0x04034b50;
/** A spreadsheet has a handful of files; an archive of very many is none. */
const mostEntries = 20_000;

const bytesOf = async (file: Blob, from: number, to: number): Promise<DataView> =>
  new DataView(await file.slice(from, to).arrayBuffer());

/**
 * The files of a ZIP archive by their names, read from its directory at the end. Throws ImportFileError where there is none.
 * Source: PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16.
 */
export const zipEntries = async (file: Blob): Promise<Map<string, ZipEntry>> => {
  const tailStart = Math.max(0, file.size - 65_557);
  const tail = await bytesOf(file, tailStart, file.size);
  let end = tail.byteLength - 22;
  while (end >= 0 && tail.getUint32(end, true) !== endMark) end--;
  if (end < 0) throw damaged();
  const count = tail.getUint16(end + 10, true);
  const length = tail.getUint32(end + 12, true);
  const start = tail.getUint32(end + 16, true);
  if (count > mostEntries || start + length > file.size) throw damaged();
  const directory = await bytesOf(file, start, start + length);
  const entries = new Map<string, ZipEntry>();
  let at = 0;
  for (let i = 0; i < count; i++) {
    if (at + 46 > directory.byteLength || directory.getUint32(at, true) !== entryMark) throw damaged();
    const nameLength = directory.getUint16(at + 28, true);
    if (at + 46 + nameLength > directory.byteLength) throw damaged();
    const name = new TextDecoder().decode(new Uint8Array(directory.buffer, at + 46, nameLength));
    if (directory.getUint16(at + 8, true) & 1)
      throw new ImportFileError(
        'This spreadsheet is protected by a password. Save it without one and import that.',
      );
    entries.set(name, {
      name,
      method: directory.getUint16(at + 10, true),
      compressed: directory.getUint32(at + 20, true),
      size: directory.getUint32(at + 24, true),
      offset: directory.getUint32(at + 42, true),
    });
    at += 46 + nameLength + directory.getUint16(at + 30, true) + directory.getUint16(at + 32, true);
  }
  return entries;
};

/** The text of one file of an archive, piece by piece; never more of it than its directory announces. */
export const zipText = async function* (file: Blob, entry: ZipEntry): AsyncGenerator<string> {
  const local = await bytesOf(file, entry.offset, entry.offset + 30);
  if (local.byteLength < 30 || local.getUint32(0, true) !== localMark) throw damaged();
  const start = entry.offset + 30 + local.getUint16(26, true) + local.getUint16(28, true);
  const packed = file.slice(start, start + entry.compressed).stream();
  if (entry.method !== 0 && entry.method !== 8) throw damaged();
  const plain = entry.method === 0 ? packed : packed.pipeThrough(new DecompressionStream('deflate-raw'));
  const decoder = new TextDecoder();
  let read = 0;
  try {
    for await (const chunk of plain) {
      read += chunk.byteLength;
      if (read > entry.size) throw damaged();
      yield decoder.decode(chunk, { stream: true });
    }
  } catch (error) {
    throw error instanceof ImportFileError ? error : damaged();
  }
  yield decoder.decode();
};

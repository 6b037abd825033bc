import { BlobReader, type FileEntry, ZipReader } from '@zip.js/zip.js';
import { unpacked } from '../../file/unpack.ts';
import { ImportFileError } from '../types.ts';

/** One file inside a ZIP archive. */
export type ZipEntry = FileEntry;

const damaged = () =>
  new ImportFileError(
    'This file cannot be read as a spreadsheet: it is cut short or damaged. Open it in a spreadsheet program, save it as .xlsx or .csv, and import that.',
  );

/** A spreadsheet has a handful of files; an archive of very many is none. */
const mostEntries = 20_000;
/** Bytes of one file, unpacked: twice what the fullest sheet that such a program writes takes. */
const mostBytes = 4_000_000_000;
/**
 * Spreadsheets pack to a tenth or a thirtieth; beyond this nothing was written by hand or by a list.
 * Small files may.
 */
const mostRatio = 200;
const smallBytes = 30_000_000;

const tooLarge = () =>
  new ImportFileError(
    `A part of this spreadsheet unpacks to more than ${mostBytes / 1e9} GB, more than can be read. Save the sheet as .csv and import that.`,
  );

const swollen = () =>
  new ImportFileError(
    `A part of this spreadsheet unpacks to more than ${mostRatio} times its size, as no list does. It is not read; if you trust it, open it in a spreadsheet program, save it as .csv, and import that.`,
  );

const refuseSize = ({ compressedSize }: ZipEntry, unpacked: number): void => {
  if (unpacked > mostBytes) throw tooLarge();
  if (unpacked > smallBytes && unpacked > compressedSize * mostRatio) throw swollen();
};

/**
 * The files of a ZIP archive (ZIP64 included) by their names, read from its directory. Throws ImportFileError
 * where there is none, where a file is locked, and where one says that it unpacks beyond all measure.
 */
export const zipEntries = async (file: Blob): Promise<Map<string, ZipEntry>> => {
  const entries = new Map<string, ZipEntry>();
  try {
    for await (const entry of new ZipReader(new BlobReader(file), {
      useWebWorkers: false,
    }).getEntriesGenerator()) {
      if (entry.directory) continue;
      if (entry.encrypted)
        throw new ImportFileError(
          'This spreadsheet is protected by a password. Save it without one and import that.',
        );
      if (entries.size >= mostEntries) throw damaged();
      refuseSize(entry, entry.uncompressedSize);
      entries.set(entry.filename, entry);
    }
  } catch (error) {
    throw error instanceof ImportFileError ? error : damaged();
  }
  return entries;
};

/**
 * The text of one file of an archive, piece by piece; never more of it than its directory announces, nor
 * beyond the bounds on size and ratio. Its checksum is compared at the end. Throws ImportFileError.
 */
export const zipText = async function* (entry: ZipEntry): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  let read = 0;
  try {
    for await (const piece of unpacked(entry)) {
      read += piece.byteLength;
      if (read > entry.uncompressedSize) throw damaged();
      refuseSize(entry, read);
      yield decoder.decode(piece, { stream: true });
    }
  } catch (error) {
    throw error instanceof ImportFileError ? error : damaged();
  }
  yield decoder.decode();
};

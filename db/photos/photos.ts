import { existsSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Transaction } from 'kysely';
import type { IsoDate } from '../../valuation/types.ts';
import { asCollectionError, CollectionError, withStorageErrors } from '../errors.ts';
import { makeFolder, sha256Of, writeWhole } from '../file/files.ts';
import { layout } from '../file/layout.ts';
import type { Schema } from '../schema.ts';
import { exifTime } from './exif-date.ts';
import { decodeHeic } from './heic.ts';
import {
  type CopySize,
  copiesMadeAtOnce,
  copyPath,
  copySizes,
  formatOfFile,
  originalPath,
  type PhotoFormat,
  photoFormats,
  writeOriginal,
} from './photo-files.ts';
import { photoFormat } from './photo-format.ts';
import { loadSharp } from './sharp.ts';

/**
 * An original in the photo folder, ready for a row to point at. Width and height are as it is
 * seen, turned upright.
 */
export interface StoredPhoto {
  sha256: string;
  format: PhotoFormat;
  bytes: number;
  width: number;
  height: number;
  takenOn: IsoDate | null;
  /** With the time, "2024-05-31T17:45:00" by the camera's clock; null where the file has none. */
  takenAt: string | null;
}

/**
 * The most pixels a photograph may have; a picture of a few kilobytes can otherwise unpack into gigabytes.
 */
const mostPixels = 100_000_000;

/**
 * A smaller copy, upright, in the screen's colours, and without the original's metadata (place and camera).
 */
const smallerCopy = async (bytes: Uint8Array, size: CopySize): Promise<Buffer> => {
  const sharp = await loadSharp();
  return sharp(bytes, { limitInputPixels: mostPixels, failOn: 'error' })
    .autoOrient()
    .resize(copySizes[size], copySizes[size], { fit: 'inside', withoutEnlargement: true })
    .webp({ quality: 82, effort: 2 })
    .toBuffer();
};

/** True where a picture in a file unpacks to its end. */
export const decodes = async (path: string): Promise<boolean> => {
  const sharp = await loadSharp();
  return sharp(readFileSync(path), { limitInputPixels: mostPixels, failOn: 'error' })
    .stats()
    .then(
      () => true,
      () => false,
    );
};

/** The bytes that libvips can unpack: a photograph's own, or those of the picture that a HEIC holds. */
const readable = async (bytes: Uint8Array, format: PhotoFormat, heicWorker?: URL): Promise<Uint8Array> =>
  format === 'heic' ? decodeHeic(bytes, heicWorker) : bytes;

const keepCopy = (dir: string, sha256: string, size: CopySize, copy: Buffer) => {
  const path = copyPath(dir, sha256, size);
  makeFolder(dirname(path));
  writeWhole(path, copy);
};

const unreadable = (cause: unknown) => new CollectionError({ kind: 'photo-unreadable' }, { cause });

const measure = async (bytes: Uint8Array, format: PhotoFormat, heicWorker?: URL) => {
  const sharp = await loadSharp();
  // The limit is checked below, where the reason can be given; metadata alone unpacks nothing.
  const read = await sharp(bytes, { limitInputPixels: false, failOn: 'error' })
    .metadata()
    .catch(async (error: unknown) => {
      // Of a HEIC its own decoder tells damage from a kind that it does not know.
      if (format === 'heic') await decodeHeic(bytes, heicWorker);
      throw unreadable(error);
    });
  const { width, height } = read.autoOrient;
  if (width * height > mostPixels)
    throw new CollectionError({ kind: 'photo-too-large', width, height, mostPixels });
  const taken = exifTime(read.exif);
  return {
    width,
    height,
    takenOn: taken?.slice(0, 10) ?? null,
    takenAt: taken?.includes('T') ? taken : null,
  };
};

/**
 * Puts a photograph into the collection's photo folder, named by its content, with its smaller copies; one
 * that is there already is not stored twice, and one that was altered is put right. The original keeps all of
 * its metadata. Call it before the action, then `addPhoto` inside. `heicWorker`, here and below, is the file of
 * the worker that decodes HEIC, where it does not lie as in a checkout. Throws CollectionError 'photo-refused'
 * (with the reason), 'disk-full', 'read-only'.
 */
export const storePhoto = async (dir: string, bytes: Uint8Array, heicWorker?: URL): Promise<StoredPhoto> => {
  const format = photoFormat(bytes);
  const measured = await measure(bytes, format, heicWorker);
  const copies: [CopySize, Buffer][] = [];
  const picture = await readable(bytes, format, heicWorker);
  for (const size of copiesMadeAtOnce)
    copies.push([
      size,
      await smallerCopy(picture, size).catch((error: unknown) => {
        throw unreadable(error);
      }),
    ]);
  const sha256 = sha256Of(bytes);
  return withStorageErrors(layout(dir).photos, () => {
    // The copies first: on a full disk none of it stays but copies, which can be made again.
    for (const [size, copy] of copies) keepCopy(dir, sha256, size, copy);
    const present = originalPath(dir, sha256);
    if (!present || sha256Of(readFileSync(present)) !== sha256) writeOriginal(dir, sha256, format, bytes);
    return { sha256, format, bytes: bytes.byteLength, ...measured };
  });
};

/**
 * Makes the screen copies that papers print of photographs whose originals only this program reads, where
 * they are missing. What is missing or damaged itself is left to whoever prints.
 */
export const makePrintable = async (
  dir: string,
  photos: Iterable<string>,
  heicWorker?: URL,
): Promise<void> => {
  for (const sha256 of photos) {
    if (existsSync(copyPath(dir, sha256, 'screen'))) continue;
    const path = originalPath(dir, sha256);
    if (!path || formatOfFile(path) !== 'heic') continue;
    await readPhoto(dir, sha256, 'screen', heicWorker).catch((error: unknown) => {
      if (!(error instanceof CollectionError)) throw error;
    });
  }
};

/** What a photograph shows: one car, lot or variation. */
export interface PhotoPlace {
  carId?: number | undefined;
  lotId?: number | undefined;
  variationId?: number | undefined;
  view?: string | undefined;
  caption?: string | undefined;
  state?: string | undefined;
  at: string;
}

/**
 * Adds a stored photograph after the others of its car, lot or variation, inside an action. Returns
 * its row's number.
 */
export const addPhoto = async (
  trx: Transaction<Schema>,
  photo: StoredPhoto,
  { carId, lotId, variationId, view = '', caption = '', state = '', at }: PhotoPlace,
): Promise<number> => {
  const [column, id] =
    carId !== undefined
      ? (['car_id', carId] as const)
      : lotId !== undefined
        ? (['lot_id', lotId] as const)
        : (['variation_id', variationId ?? null] as const);
  if (id === null) throw new RangeError('A photograph belongs to a car, a lot or a variation');
  const last = await trx
    .selectFrom('photo')
    .select(eb => eb.fn.max('position').as('position'))
    .where(column, '=', id)
    .executeTakeFirst();
  const { sha256, format, bytes, width, height, takenOn } = photo;
  const row = await trx
    .insertInto('photo')
    .values({
      sha256,
      format,
      bytes,
      width,
      height,
      car_id: carId ?? null,
      lot_id: carId === undefined ? (lotId ?? null) : null,
      variation_id: column === 'variation_id' ? id : null,
      view,
      caption,
      state,
      taken_on: takenOn,
      position: (last?.position ?? -1) + 1,
      added_at: at,
    })
    .returning('id')
    .executeTakeFirstOrThrow();
  return row.id;
};

const readOriginal = (dir: string, sha256: string) => {
  const path = originalPath(dir, sha256);
  if (!path) throw new CollectionError({ kind: 'photo-missing', sha256, folder: layout(dir).photos });
  const bytes = readFileSync(path);
  if (sha256Of(bytes) !== sha256) throw new CollectionError({ kind: 'photo-altered', path });
  return { bytes, format: formatOfFile(path) };
};

/** A photograph that was stored before, by its hash. Throws CollectionError 'photo-missing' or 'damaged'. */
export const storedPhoto = async (dir: string, sha256: string, heicWorker?: URL): Promise<StoredPhoto> => {
  const { bytes, format } = readOriginal(dir, sha256);
  return { sha256, format, bytes: bytes.byteLength, ...(await measure(bytes, format, heicWorker)) };
};

/**
 * A photograph's bytes: the original as it was added, verified, or a smaller upright WebP copy, made again
 * where it is missing; 'large' is the original where every screen can show it. Throws CollectionError
 * 'photo-missing', or 'damaged' where the original is no longer what was added.
 */
export const readPhoto = (
  dir: string,
  sha256: string,
  size: CopySize | 'original',
  heicWorker?: URL,
): Promise<{ bytes: Uint8Array; contentType: string }> =>
  withStorageErrors(layout(dir).photos, async () => {
    const path = size === 'original' ? null : copyPath(dir, sha256, size);
    if (path && existsSync(path)) return { bytes: readFileSync(path), contentType: 'image/webp' };
    const { bytes, format } = readOriginal(dir, sha256);
    const { contentType, shown } = photoFormats[format];
    if (size === 'original' || (size === 'large' && shown)) return { bytes, contentType };
    const copy = await smallerCopy(await readable(bytes, format, heicWorker), size);
    try {
      keepCopy(dir, sha256, size, copy);
    } catch (error) {
      // It can be shown though the disk is full or read-only, and is made again the next time.
      if (!(asCollectionError(error, dir) instanceof CollectionError)) throw error;
    }
    return { bytes: copy, contentType: 'image/webp' };
  });

export interface PhotoChanges {
  view?: string | undefined;
  caption?: string | undefined;
  state?: string | undefined;
  takenOn?: IsoDate | null | undefined;
  /** Place among the photographs of its car, lot or variation; lower comes first. */
  position?: number | undefined;
}

/** Changes what is kept of a photograph besides its bytes. */
export const updatePhoto = async (
  trx: Transaction<Schema>,
  id: number,
  { view, caption, state, takenOn, position }: PhotoChanges,
): Promise<void> => {
  const values = {
    ...(view !== undefined && { view }),
    ...(caption !== undefined && { caption }),
    ...(state !== undefined && { state }),
    ...(takenOn !== undefined && { taken_on: takenOn }),
    ...(position !== undefined && { position }),
  };
  if (Object.keys(values).length > 0)
    await trx.updateTable('photo').set(values).where('id', '=', id).execute();
};

/** Takes a photograph off its car, lot or variation; the file stays in the photo folder. */
export const removePhoto = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('photo').where('id', '=', id).execute();
};

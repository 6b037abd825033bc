import { CollectionError } from '../../../db/errors.ts';
import { type StoredPhoto, storePhoto } from '../../../db/photos/photos.ts';
import { toApiError } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { RefusedFile } from '../views.ts';

export interface StoredFile {
  name: string;
  photo: StoredPhoto;
}

/**
 * Stores photographs before the action that points at them. A file that is no photograph is named with the
 * reason, and the others are taken; where none is left, the first reason is thrown.
 */
export const storeFiles = async (
  session: Session,
  files: readonly File[],
  signal?: AbortSignal,
): Promise<{ stored: StoredFile[]; refused: RefusedFile[] }> => {
  const { dir } = openOf(session);
  const stored: StoredFile[] = [];
  const refused: RefusedFile[] = [];
  for (const file of files) {
    signal?.throwIfAborted();
    try {
      stored.push({
        name: file.name,
        photo: await storePhoto(dir, new Uint8Array(await file.arrayBuffer()), session.options.workers?.heic),
      });
    } catch (error) {
      const known = toApiError(error);
      const isPhotos = error instanceof CollectionError && error.code === 'photo-refused';
      if (isPhotos) refused.push({ name: file.name, reason: error.message });
      if (isPhotos && (stored.length > 0 || refused.length < files.length)) continue;
      if (known instanceof Error && files.length > 1) known.message = `${file.name}: ${known.message}`;
      throw known;
    }
  }
  return { stored, refused };
};

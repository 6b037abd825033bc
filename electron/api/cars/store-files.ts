import { type StoredPhoto, storePhoto } from '../../../db/photos/photos.ts';
import { toApiError } from '../session/errors.ts';

/**
 * Stores photographs before the action that points at them; a file that is refused is named, and then none is
 * added.
 */
export const storeFiles = async (
  dir: string,
  files: readonly File[],
  signal?: AbortSignal,
): Promise<StoredPhoto[]> => {
  const stored: StoredPhoto[] = [];
  for (const file of files) {
    signal?.throwIfAborted();
    try {
      stored.push(await storePhoto(dir, new Uint8Array(await file.arrayBuffer())));
    } catch (error) {
      const known = toApiError(error);
      if (known instanceof Error && files.length > 1) known.message = `${file.name}: ${known.message}`;
      throw known;
    }
  }
  return stored;
};

import type { Collection } from '../../../db/collection.ts';
import { CollectionError } from '../../../db/errors.ts';
import { type OpenOptions, openCollection } from '../../../db/open-collection.ts';
import { onlyReadText } from '../../../valuation/wording/storage/refusal-text.ts';

/** Opens a collection; one on a full or read-only disk can still be looked at, and `onlyRead` says why. */
export const openOrRead = async (
  dir: string,
  opening: OpenOptions,
): Promise<{ collection: Collection; onlyRead: string | null }> => {
  try {
    return { collection: await openCollection(dir, opening), onlyRead: null };
  } catch (error) {
    if (!(error instanceof CollectionError) || !/^(read-only|disk-full)$/.test(error.code)) throw error;
    const collection = await openCollection(dir, { ...opening, readOnly: true }).catch(() => {
      throw error;
    });
    const onlyRead = onlyReadText(error.refusal);
    collection.notices.push(onlyRead);
    return { collection, onlyRead };
  }
};

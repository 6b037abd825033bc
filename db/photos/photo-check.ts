import { createHash } from 'node:crypto';
import { createReadStream, existsSync, rmSync } from 'node:fs';
import { type CopySize, copyPath, copySizes, originalPath } from './photo-files.ts';
import { decodes, readPhoto } from './photos.ts';

export type PhotoFault = 'missing' | 'altered' | 'unreadable';

const hashOfFile = async (path: string, signal: AbortSignal | undefined): Promise<string> => {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path, { signal })) hash.update(chunk);
  return hash.digest('hex');
};

/** What is wrong with an original, against the hash taken when it was added; undefined where nothing is. */
export const faultOfPhoto = async (
  dir: string,
  sha256: string,
  signal?: AbortSignal,
): Promise<PhotoFault | undefined> => {
  const path = originalPath(dir, sha256);
  if (!path) return 'missing';
  try {
    return (await hashOfFile(path, signal)) === sha256 ? undefined : 'altered';
  } catch (error) {
    signal?.throwIfAborted();
    if (error instanceof Error && 'code' in error) return 'unreadable';
    throw error;
  }
};

/**
 * Makes the smaller copies of a sound original again where they are there and do not decode. Returns how many
 * were made again and how many could not be.
 */
export const remakeCopies = async (
  dir: string,
  sha256: string,
  heicWorker?: URL,
): Promise<{ remade: number; failed: number }> => {
  let remade = 0;
  let failed = 0;
  for (const size of Object.keys(copySizes) as CopySize[]) {
    const path = copyPath(dir, sha256, size);
    if (!existsSync(path) || (await decodes(path))) continue;
    try {
      rmSync(path, { force: true });
      await readPhoto(dir, sha256, size, heicWorker);
    } catch {
      failed++;
      continue;
    }
    if (existsSync(path)) remade++;
    else failed++;
  }
  return { remade, failed };
};

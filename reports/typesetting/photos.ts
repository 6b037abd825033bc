import { readFile } from 'node:fs/promises';

/** Photographs ready for print by their path, and what was wrong with the others, by path. */
export interface PrintPhotos {
  ready: Map<string, Buffer>;
  failed: Map<string, string>;
}

const photographFormats = new Set(['jpeg', 'png', 'webp', 'tiff', 'gif', 'heif', 'avif']);
const atOnce = 4;

/**
 * A photograph as it goes to print: upright, at most `pixels` on its long side, sRGB, on white, JPEG,
 * and without any of its metadata (place, camera, owner). Throws where the file cannot be read or is
 * not a photograph.
 */
export const printPhoto = async (path: string, pixels: number): Promise<Buffer> => {
  // Read only where there are photographs: it takes a third of the start of a worker.
  const { default: sharp } = await import('sharp');
  const image = sharp(await readFile(path), { failOn: 'error' });
  const { format } = await image.metadata();
  if (!photographFormats.has(format)) throw new Error(`${format} is not a photograph\u2019s format`);
  return image
    .autoOrient()
    .resize({ width: pixels, height: pixels, fit: 'inside', withoutEnlargement: true })
    .flatten({ background: '#ffffff' })
    .toColourspace('srgb')
    .jpeg({ quality: 80 })
    .toBuffer();
};

/**
 * Prepares all photographs, each path once, a few at a time. A photograph that fails is
 * reported, never thrown.
 */
export const printPhotos = async (
  paths: Iterable<string>,
  pixels: number,
  onProgress: (done: number, total: number) => void,
): Promise<PrintPhotos> => {
  const queue = [...new Set(paths)];
  const total = queue.length;
  const results = new Map<string, Buffer | string>();
  const work = async (): Promise<void> => {
    for (let path = queue.shift(); path !== undefined; path = queue.shift()) {
      results.set(path, await printPhoto(path, pixels).catch((error: Error) => error.message));
      onProgress(results.size, total);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, work));
  const prepared: PrintPhotos = { ready: new Map(), failed: new Map() };
  for (const [path, result] of results)
    if (typeof result === 'string') prepared.failed.set(path, result);
    else prepared.ready.set(path, result);
  return prepared;
};

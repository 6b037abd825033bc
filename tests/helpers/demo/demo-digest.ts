/**
 * Prints one digest of the demo's rows and of some of its photographs. Run in a process of its own, it shows
 * that nothing of the demo depends on what was run before.
 *
 *   node tests/helpers/demo/demo-digest.ts
 */
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { demoContent } from '../../../electron/demo/demo-content.ts';
import { renderView } from '../../../electron/demo/drawing/render.ts';
import { newPalette } from '../../../electron/demo/drawing/surface/palette.ts';

/**
 * The photographs that are drawn for the digest: the first of each view, and the first
 * car before restoration.
 */
export const sampledPhotos = (content: ReturnType<typeof demoContent>) => [
  content.photos.find(photo => photo.view === 'near side')!,
  content.photos.find(photo => photo.state === 'before')!,
  content.photos.find(photo => photo.view === 'base')!,
  content.photos.find(photo => photo.view === 'rear')!,
];

export const demoDigest = async (): Promise<string> => {
  const content = demoContent();
  const hash = createHash('sha256').update(JSON.stringify(content));
  const palette = newPalette();
  for (const photo of sampledPhotos(content)) hash.update(await renderView(photo.drawn, palette));
  return hash.digest('hex');
};

if (process.argv[1] === fileURLToPath(import.meta.url)) console.log(await demoDigest());

import { copyFile, mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';
import { printPhoto } from '../typesetting/photos.ts';
import { checkoutAssets } from '../typesetting/report-assets.ts';
import { type Gallery, type GalleryPhoto, pageNames } from './gallery.ts';
import { carPage, type ShownCar, type ShownPhoto, wallPage } from './pages.ts';

/** Pixels of the long side of a car's large picture, and of the one on the wall. */
const large = 1600;
const small = 560;

export interface GalleryMade {
  cars: number;
  photographs: number;
  /** What could not be shown, in words. */
  warnings: string[];
}

/** A photograph as it goes out: two JPEGs of their own making, without anything that its camera wrote. */
const writePhoto = async (
  folder: string,
  file: string,
  { path, ...photo }: GalleryPhoto,
): Promise<ShownPhoto> => {
  const bytes = await printPhoto(path, large);
  const { width, height } = await sharp(bytes).metadata();
  await writeFile(join(folder, `${file}.jpg`), bytes);
  const less = sharp(bytes).resize({ width: small, height: small, fit: 'inside', withoutEnlargement: true });
  await writeFile(join(folder, `${file}-small.jpg`), await less.jpeg({ quality: 78 }).toBuffer());
  return { ...photo, file, width, height };
};

/**
 * Writes the gallery into an empty folder: `index.html`, a page per car, pictures, one style and one script
 * of its own. The same cars and photographs give the same bytes. A photograph that cannot be read is left out
 * and told. Throws the signal's reason.
 */
export const writeGallery = async (
  gallery: Gallery,
  folder: string,
  {
    signal,
    onPhoto,
    templates = checkoutAssets().templates,
  }: {
    /** Where the reports' templates lie. */
    templates?: string | undefined;
    signal?: AbortSignal | undefined;
    onPhoto?: (done: number, total: number) => void;
  } = {},
): Promise<GalleryMade> => {
  const pictures = join(folder, 'pictures');
  await mkdir(pictures, { recursive: true });
  await mkdir(join(folder, 'cars'), { recursive: true });
  const names = pageNames(gallery.cars);
  const total = gallery.cars.reduce((sum, { photos }) => sum + photos.length, 0);
  const warnings: string[] = [];
  const cars: ShownCar[] = [];
  let done = 0;
  for (const [i, car] of gallery.cars.entries()) {
    const photos: ShownPhoto[] = [];
    for (const [k, photo] of car.photos.entries()) {
      signal?.throwIfAborted();
      try {
        photos.push(await writePhoto(pictures, `${names[i]}-${k + 1}`, photo));
      } catch (error) {
        if (error instanceof Error && 'code' in error && error.code === 'ENOSPC') throw error;
        warnings.push(
          `${car.inventoryNumber}: photograph left out (${error instanceof Error ? error.message : error})`,
        );
      }
      done += 1;
      onPhoto?.(done, total);
    }
    cars.push({ ...car, page: names[i]!, photos });
  }
  const shown = { ...gallery, cars };
  for (const [i, { page }] of cars.entries()) {
    signal?.throwIfAborted();
    await writeFile(join(folder, 'cars', `${page}.html`), carPage(shown, i));
  }
  await writeFile(join(folder, 'index.html'), wallPage(shown));
  for (const name of ['gallery.css', 'gallery.js'])
    await copyFile(join(templates, 'gallery', name), join(folder, name));
  return {
    cars: cars.length,
    photographs: cars.reduce((sum, { photos }) => sum + photos.length, 0),
    warnings,
  };
};

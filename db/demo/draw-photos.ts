import { storePhoto } from '../photos.ts';
import type { DemoPhoto, Row } from './content.ts';
import { instant } from './dates.ts';
import { renderView } from './drawing/render.ts';

/** So many photographs are drawn at once; libvips works on its own threads. */
const atOnce = 3;

/** Draws the photographs and stores them in the collection's folder; returns their rows, without ids, in order. */
export const drawPhotos = async (
  dir: string,
  photos: readonly DemoPhoto[],
  { onProgress, signal }: { onProgress?: (done: number, total: number) => void; signal?: AbortSignal },
): Promise<Omit<Row<'photo'>, 'id'>[]> => {
  const rows: Omit<Row<'photo'>, 'id'>[] = new Array(photos.length);
  let next = 0;
  let done = 0;
  const work = async () => {
    while (next < photos.length) {
      signal?.throwIfAborted();
      const place = next++;
      rows[place] = await drawPhoto(dir, photos[place]!);
      onProgress?.(++done, photos.length);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, work));
  return rows;
};

const drawPhoto = async (dir: string, photo: DemoPhoto): Promise<Omit<Row<'photo'>, 'id'>> => {
  const stored = await storePhoto(dir, await renderView(photo.drawn));
  return {
    sha256: stored.sha256,
    format: stored.format,
    bytes: stored.bytes,
    width: stored.width,
    height: stored.height,
    car_id: photo.carId,
    lot_id: photo.lotId,
    variation_id: null,
    view: photo.view,
    caption: photo.caption,
    state: photo.state,
    taken_on: photo.takenOn,
    position: photo.position,
    added_at: instant(photo.takenOn),
  };
};

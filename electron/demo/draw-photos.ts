import { storePhoto } from '../../db/photos/photos.ts';
import type { DemoPhoto, Row } from './content.ts';
import { instant } from './dates.ts';
import { renderView } from './drawing/render.ts';
import { newPalette, type Palette } from './drawing/surface/palette.ts';

/** So many photographs are drawn at once; libvips works on its own threads. */
const atOnce = 3;

/**
 * Draws the photographs and stores them in the collection's folder; returns their rows,
 * without ids, in order.
 */
export const drawPhotos = async (
  dir: string,
  photos: readonly DemoPhoto[],
  { onProgress, signal }: { onProgress?: (done: number, total: number) => void; signal?: AbortSignal },
): Promise<Omit<Row<'photo'>, 'id'>[]> => {
  const rows: Omit<Row<'photo'>, 'id'>[] = new Array(photos.length);
  // Cars of one casting after each other: they share their surface, which takes long to work out.
  const order = photos.map((_, place) => place);
  order.sort((a, b) => compare(alikeness(photos[a]!), alikeness(photos[b]!)) || a - b);
  const palette = newPalette();
  let next = 0;
  let done = 0;
  const work = async () => {
    while (next < photos.length) {
      signal?.throwIfAborted();
      const place = order[next++]!;
      rows[place] = await drawPhoto(dir, photos[place]!, palette);
      onProgress?.(++done, photos.length);
    }
  };
  // All are waited for: one that still draws after another has failed would store its photograph after all.
  const ends = await Promise.allSettled(Array.from({ length: atOnce }, work));
  for (const end of ends) if (end.status === 'rejected') throw end.reason;
  return rows;
};

const compare = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

const alikeness = ({ drawn }: DemoPhoto): string =>
  drawn.kind === 'lot' ? 'lot' : `${drawn.kind} ${drawn.car.body} ${drawn.car.casting} ${drawn.car.rearEnd}`;

const drawPhoto = async (
  dir: string,
  photo: DemoPhoto,
  palette: Palette,
): Promise<Omit<Row<'photo'>, 'id'>> => {
  const stored = await storePhoto(dir, await renderView(photo.drawn, palette));
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

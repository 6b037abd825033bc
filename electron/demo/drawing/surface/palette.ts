import type { Shape } from '../shapes/shape.ts';
import { type Surface, surfaceOf } from './body-surface.ts';
import { type StudioTables, studioTables } from './lighting.ts';
import { type Textures, textures } from './noise.ts';

/** What is worked out once and used for many photographs. Made for one run of drawing, and gone with it. */
export interface Palette {
  readonly light: StudioTables;
  readonly textures: Textures;
  /**
   * The surface of a shape. The last one is kept, for the next car of the same casting; nobody
   * may write into it.
   */
  surfaceOf(shape: Shape, scale: number): Surface;
  /**
   * Bytes to write in, whatever they hold from before: taking so many again for each picture keeps
   * the collector busy.
   */
  room(bytes: number): Uint8Array;
}

/** A palette for one run of drawing; the same every time. */
export const newPalette = (): Palette => {
  let last: { key: string; surface: Surface } | undefined;
  let bytesHeld = new Uint8Array(0);
  return {
    light: studioTables(),
    textures: textures(),
    surfaceOf: (shape, scale) => {
      const key = JSON.stringify([shape, scale]);
      if (last?.key !== key) last = { key, surface: surfaceOf(shape, scale) };
      return last.surface;
    },
    room: bytes => {
      if (bytesHeld.length < bytes) bytesHeld = new Uint8Array(bytes);
      return bytesHeld.subarray(0, bytes);
    },
  };
};

import { randomFrom } from '../../random.ts';

const size = 512;

/** Value noise that repeats every `size` pixels, of one grain, smoothed between its grid points. */
const layer = (cells: number, seed: string): Float32Array => {
  const random = randomFrom(seed);
  const grid = Float32Array.from({ length: cells * cells }, () => random.next());
  const out = new Float32Array(size * size);
  const step = cells / size;
  for (let y = 0; y < size; y++) {
    const gy = y * step;
    const y0 = Math.floor(gy);
    const ty = gy - y0;
    const sy = ty * ty * (3 - 2 * ty);
    const row0 = (y0 % cells) * cells;
    const row1 = ((y0 + 1) % cells) * cells;
    for (let x = 0; x < size; x++) {
      const gx = x * step;
      const x0 = Math.floor(gx);
      const tx = gx - x0;
      const sx = tx * tx * (3 - 2 * tx);
      const c0 = x0 % cells;
      const c1 = (x0 + 1) % cells;
      const top = grid[row0 + c0]! * (1 - sx) + grid[row0 + c1]! * sx;
      const low = grid[row1 + c0]! * (1 - sx) + grid[row1 + c1]! * sx;
      out[y * size + x] = top * (1 - sy) + low * sy;
    }
  }
  return out;
};

const blend = (parts: [cells: number, share: number][], seed: string): Float32Array => {
  const out = new Float32Array(size * size);
  parts.forEach(([cells, share], i) => {
    const one = layer(cells, `${seed} ${i}`);
    for (let k = 0; k < out.length; k++) out[k]! += share * one[k]!;
  });
  return out;
};

/** The texture with its values spread evenly over 0 … 1, so that a share of it is a threshold. */
const evenly = (texture: Float32Array): Float32Array => {
  const order = Uint32Array.from(texture.keys()).sort((a, b) => texture[a]! - texture[b]! || a - b);
  const out = new Float32Array(texture.length);
  order.forEach((place, rank) => {
    out[place] = rank / texture.length;
  });
  return out;
};

export interface Textures {
  chips: Float32Array;
  clouds: Float32Array;
  grain: Float32Array;
}

/** Textures of 0 … 1: ragged for chips, slow for toning, single pixels for grain. The same every time. */
export const textures = (): Textures => ({
  chips: evenly(
    blend(
      [
        [11, 0.3],
        [34, 0.3],
        [83, 0.24],
        [170, 0.16],
      ],
      'chips',
    ),
  ),
  clouds: blend(
    [
      [5, 0.6],
      [13, 0.4],
    ],
    'clouds',
  ),
  grain: layer(size, 'grain'),
});

/** Value of a texture at whole pixels, repeating. */
export const texel = (texture: Float32Array, x: number, y: number): number =>
  texture[((y & (size - 1)) << 9) | (x & (size - 1))]!;

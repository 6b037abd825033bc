import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import sharp from 'sharp';

const bodies = [
  // saloon, fastback, estate, pick-up: outline of the body above the sills, on a plate of 600 × 400
  'M60 250 L70 205 Q120 190 190 186 Q235 132 270 128 L400 128 Q450 134 478 190 Q530 198 542 222 L545 250 Z',
  'M60 250 L70 212 Q120 188 200 182 Q260 130 320 126 Q420 134 535 196 L545 250 Z',
  'M60 250 L70 205 Q120 192 180 186 Q220 130 262 126 L510 126 Q536 134 540 190 L545 250 Z',
  'M60 250 L70 205 Q120 192 180 186 Q222 128 262 124 L330 124 L336 188 L540 188 L545 250 Z',
];

/** A drawn side view of a toy car in a colour, with chips in its finish: more of them the worse the grade. */
export const sampleCarSvg = (swatch: string, body: number, grade: number, seed: number): string => {
  const chips = Array.from({ length: Math.round((10 - grade) * 4) }, (_, i) => {
    const turn = Math.abs(Math.sin((i + 1) * 12.9898 + seed * 78.233) * 43758.5453) % 1;
    const other = Math.abs(Math.sin((i + 1) * 39.3467 + seed * 11.135) * 24634.6345) % 1;
    return `<ellipse cx="${80 + turn * 440}" cy="${200 + other * 45}" rx="${2 + other * 5}" ry="${1 + turn * 3}" fill="#b9bcbf"/>`;
  });
  const wheel = (x: number): string =>
    `<circle cx="${x}" cy="256" r="36" fill="#1d1e20"/><circle cx="${x}" cy="256" r="20" fill="#c9ccd0"/>
     <circle cx="${x}" cy="256" r="27" fill="none" stroke="#a33" stroke-width="3"/>`;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 400">
    <defs><linearGradient id="paint" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#fff" stop-opacity=".75"/>
    <stop offset=".4" stop-color="#fff" stop-opacity="0"/><stop offset="1" stop-color="#000" stop-opacity=".35"/></linearGradient>
    <linearGradient id="table" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#eceae4"/><stop offset="1" stop-color="#cfccc4"/></linearGradient></defs>
    <rect width="600" height="400" fill="url(#table)"/><ellipse cx="302" cy="292" rx="260" ry="16" fill="#000" opacity=".22"/>
    <path d="${bodies[body % bodies.length]}" fill="${swatch}"/><path d="${bodies[body % bodies.length]}" fill="url(#paint)"/>
    <path d="M215 184 Q248 144 276 142 L318 142 L318 184 Z" fill="#26323a" opacity=".85"/>
    ${chips.join('')}<path d="M60 250 L545 250 L540 264 L66 264 Z" fill="#9a9da1"/>${wheel(150)}${wheel(448)}</svg>`;
};

/**
 * Writes a drawn car as a JPEG such as a telephone makes it: with the place and the camera in its EXIF.
 * Returns its absolute path.
 */
export const writeSamplePhoto = async (
  folder: string,
  name: string,
  car: { swatch: string; body: number; grade: number; seed: number },
  width = 1400,
): Promise<string> => {
  await mkdir(folder, { recursive: true });
  const path = join(folder, name);
  const svg = sampleCarSvg(car.swatch, car.body, car.grade, car.seed);
  const image = sharp(Buffer.from(svg), { density: 72 * (width / 600) }).resize({ width });
  const bytes = await image
    .jpeg({ quality: 85 })
    .withExif({
      IFD0: { Make: 'SampleCameraMaker', Artist: 'SampleOwnerName' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 0/1',
        GPSLongitudeRef: 'W',
        GPSLongitude: '0/1 7/1 0/1',
      },
    })
    .toBuffer();
  await writeFile(path, bytes);
  return path;
};

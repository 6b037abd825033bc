import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { printPhoto, printPhotos } from '../../reports/typesetting/photos.ts';
import { sampleCarSvg, writeSamplePhoto } from '../helpers/pictures/sample-photos.ts';

let folder = '';
let photo = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'playworn-photos-'));
  photo = await writeSamplePhoto(folder, 'car.jpg', { swatch: '#c2452d', body: 0, grade: 6, seed: 1 });
});
afterAll(() => rm(folder, { recursive: true }));

describe('photographs for print', () => {
  it('are reduced JPEGs without place, camera or name, though the original has them', async () => {
    const original = await readFile(photo);
    expect(original.includes('SampleCameraMaker') && original.includes('SampleOwnerName')).toBe(true);
    expect((await sharp(original).metadata()).exif).toBeDefined();
    const printed = await printPhoto(photo, 900);
    const metadata = await sharp(printed).metadata();
    expect(metadata).toMatchObject({ format: 'jpeg', width: 900, height: 600, space: 'srgb' });
    expect(metadata.exif ?? metadata.xmp ?? metadata.iptc).toBeUndefined();
    for (const secret of ['SampleCameraMaker', 'SampleOwnerName', 'Exif', 'GPS'])
      expect(printed.includes(secret)).toBe(false);
  });

  it('stand upright as the camera was held, and clear parts become white', async () => {
    const turned = join(folder, 'turned.jpg');
    await sharp(photo).withMetadata({ orientation: 6 }).toFile(turned);
    expect(await sharp(await printPhoto(turned, 300)).metadata()).toMatchObject({ width: 200, height: 300 });
    const clear = join(folder, 'clear.png');
    await sharp({ create: { width: 9, height: 9, channels: 4, background: '#00000000' } }).toFile(clear);
    expect((await sharp(await printPhoto(clear, 300)).stats()).dominant).toMatchObject({
      r: 248,
      g: 248,
      b: 248,
    });
  });

  it('that fail are told apart with a reason, and the others are not held up', async () => {
    const cut = join(folder, 'cut.jpg');
    const bytes = await readFile(photo);
    await writeFile(cut, bytes.subarray(0, bytes.length / 2));
    const text = join(folder, 'text.jpg');
    await writeFile(text, 'not a photograph');
    const drawing = join(folder, 'drawing.svg');
    await writeFile(drawing, sampleCarSvg('#c2452d', 0, 6, 1));
    const vast = join(folder, 'vast.png');
    await sharp({
      create: { width: 20_000, height: 20_000, channels: 3, background: '#fff' },
      limitInputPixels: false,
    })
      .png({ compressionLevel: 1 })
      .toFile(vast);
    const seen: number[] = [];
    const paths = [photo, cut, text, drawing, vast, join(folder, 'absent.jpg'), photo];
    const { ready, failed } = await printPhotos(paths, 900, done => seen.push(done));
    expect([...ready.keys()]).toEqual([photo]);
    expect([...failed.keys()].sort()).toEqual(paths.slice(1, 6).sort());
    expect(failed.get(drawing)).toContain('svg');
    expect(failed.get(vast)).toMatch(/pixel/);
    expect(seen).toEqual([1, 2, 3, 4, 5, 6]);
  });
});

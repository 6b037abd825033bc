import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { layout } from '../../../db/file/layout.ts';
import { runAction } from '../../../db/history/history.ts';
import { exifDate } from '../../../db/photos/exif-date.ts';
import { copyPath, originalPath, printedPaths } from '../../../db/photos/photo-files.ts';
import { addPhoto, makePrintable, readPhoto, storePhoto } from '../../../db/photos/photos.ts';
import { printPhoto } from '../../../reports/typesetting/photos.ts';
import {
  addSample,
  at,
  collectionErrorOf,
  newCollection,
  temporaryFolder,
} from '../../helpers/collections.ts';
import {
  type HeicName,
  heicFile,
  hugePng,
  picture,
  telephonePicture,
} from '../../helpers/pictures/pictures.ts';

const refusal = async (bytes: Uint8Array) => {
  const dir = temporaryFolder();
  const error = await collectionErrorOf(() => storePhoto(dir, bytes));
  expect(readdirSync(dir)).toEqual([]);
  expect(error.code).toBe('photo-refused');
  return error.message;
};

describe('storing a photograph', () => {
  it('keeps the original byte for byte, named by its content', async () => {
    const dir = temporaryFolder();
    for (const format of ['jpeg', 'png', 'webp', 'tiff', 'avif', 'gif'] as const) {
      const bytes = await picture(format);
      const stored = await storePhoto(dir, bytes);
      expect(stored).toMatchObject({ format, width: 64, height: 48, bytes: bytes.length, takenOn: null });
      const original = await readPhoto(dir, stored.sha256, 'original');
      expect(bytes.equals(original.bytes)).toBe(true);
      expect(original.contentType).toBe(`image/${format}`);
      const path = originalPath(dir, stored.sha256)!;
      expect(path).toContain(
        `${stored.sha256.slice(0, 2)}/${stored.sha256.slice(2)}.`.replaceAll(
          '/',
          path.includes('\\') ? '\\' : '/',
        ),
      );
    }
  });

  it('makes upright copies that never enlarge, and reads the day it was taken', async () => {
    const dir = temporaryFolder();
    const stored = await storePhoto(dir, await telephonePicture());
    expect(stored).toMatchObject({ width: 600, height: 800, takenOn: '2024-05-31' });
    const size = async (which: 'thumbnail' | 'screen') => {
      const { bytes, contentType } = await readPhoto(dir, stored.sha256, which);
      const { width, height, format } = await sharp(bytes).metadata();
      expect([contentType, format]).toEqual(['image/webp', 'webp']);
      return [width, height];
    };
    expect(await size('thumbnail')).toEqual([240, 320]);
    expect(await size('screen')).toEqual([600, 800]);
  });

  it('keeps the place it was taken in the original alone', async () => {
    const dir = temporaryFolder();
    const bytes = await telephonePicture();
    expect((await sharp(bytes).metadata()).exif!.toString('latin1')).toContain('Quillon camera');
    const { sha256 } = await storePhoto(dir, bytes);
    const original = await sharp((await readPhoto(dir, sha256, 'original')).bytes).metadata();
    expect(original.exif!.toString('latin1')).toContain('Quillon camera');
    for (const size of ['thumbnail', 'screen'] as const) {
      const copy = await readPhoto(dir, sha256, size);
      expect((await sharp(copy.bytes).metadata()).exif).toBeUndefined();
      expect(Buffer.from(copy.bytes).includes('Quillon camera')).toBe(false);
    }
  });

  it('stores the same photograph once, and puts an altered one right', async () => {
    const dir = temporaryFolder();
    const bytes = await picture('png');
    const { sha256 } = await storePhoto(dir, bytes);
    writeFileSync(originalPath(dir, sha256)!, 'altered');
    expect((await collectionErrorOf(() => readPhoto(dir, sha256, 'original'))).code).toBe('damaged');
    expect((await storePhoto(dir, bytes)).sha256).toBe(sha256);
    expect(bytes.equals((await readPhoto(dir, sha256, 'original')).bytes)).toBe(true);
    expect(readdirSync(layout(dir).photos).filter(name => name !== 'thumbnails')).toHaveLength(1);
  });
});

describe('a HEIC photograph', () => {
  /** The colour in the middle of each quarter of a picture, row by row, to the nearest name. */
  const quarters = async (bytes: Uint8Array) => {
    const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
    const named = { red: [192, 32, 32], green: [32, 160, 32], blue: [32, 48, 192], white: [240, 240, 240] };
    return [0.25, 0.75].flatMap(y =>
      [0.25, 0.75].map(x => {
        const at = (Math.floor(y * info.height) * info.width + Math.floor(x * info.width)) * info.channels;
        const off = (colour: number[]) =>
          Math.max(...colour.map((part, i) => Math.abs(part - data[at + i]!)));
        return (
          Object.entries(named).find(([, colour]) => off(colour) < 12)?.[0] ?? [...data.subarray(at, at + 3)]
        );
      }),
    );
  };

  it('is kept byte for byte, and shown upright as it says itself, once', async () => {
    const dir = temporaryFolder();
    const bytes = heicFile('turned');
    const stored = await storePhoto(dir, bytes);
    expect(stored).toMatchObject({ format: 'heic', width: 240, height: 320, takenOn: '2024-05-31' });
    const original = await readPhoto(dir, stored.sha256, 'original');
    expect(original.contentType).toBe('image/heic');
    expect(bytes.equals(original.bytes)).toBe(true);
    expect((await sharp(bytes).metadata()).exif!.toString('latin1')).toContain('Quillon camera');
    for (const size of ['thumbnail', 'screen', 'large'] as const) {
      const copy = await readPhoto(dir, stored.sha256, size);
      const { width, height, format, exif, icc } = await sharp(copy.bytes).metadata();
      expect([width, height, format, exif, icc]).toEqual([240, 320, 'webp', undefined, undefined]);
      expect(await quarters(copy.bytes)).toEqual(['blue', 'red', 'white', 'green']);
      expect(Buffer.from(copy.bytes).includes('Quillon')).toBe(false);
    }
  });

  it('is shown mirrored as it says, and in the colours of its profile', async () => {
    const dir = temporaryFolder();
    const shown = async (name: HeicName) =>
      quarters((await readPhoto(dir, (await storePhoto(dir, heicFile(name))).sha256, 'screen')).bytes);
    expect(await shown('mirrored')).toEqual(['green', 'red', 'white', 'blue']);
    expect(await shown('wide-colours')).toEqual(['red', 'green', 'blue', 'white']);
  });

  it('has its copy for print made anew where that is missing', async () => {
    const dir = temporaryFolder();
    const { sha256 } = await storePhoto(dir, heicFile('turned'));
    rmSync(layout(dir).thumbnails, { recursive: true });
    await makePrintable(dir, [sha256, 'f'.repeat(64)]);
    const path = printedPaths(dir)(sha256);
    expect(path).toBe(copyPath(dir, sha256, 'screen'));
    expect((await sharp(await printPhoto(path, 100)).metadata()).height).toBe(100);
  });

  it('may have as many pixels as any other', async () => {
    const bytes = heicFile('turned');
    // The size that the file claims for its picture.
    const at = bytes.indexOf('ispe', 0, 'latin1') + 8;
    bytes.writeUInt32BE(20_000, at);
    bytes.writeUInt32BE(20_000, at + 4);
    expect(await refusal(bytes)).toMatch(/20000 × 20000 pixels; the most is 100 million/);
  });
});

describe('a photograph is refused with its reason', () => {
  it('as a drawing', async () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>alert(1)</script></svg>';
    expect(await refusal(Buffer.from(svg))).toMatch(/drawing \(SVG\)/);
    expect(await refusal(Buffer.from(`<?xml version="1.0"?>\n${svg}`))).toMatch(/drawing \(SVG\)/);
  });

  it('as a HEIC that is cut short, or holds a picture of a kind that cannot be read', async () => {
    const head = Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1');
    expect(await refusal(head)).toMatch(/damaged or cut short/);
    const whole = heicFile('turned');
    for (const part of [0.3, 0.6, 0.95])
      expect(await refusal(whole.subarray(0, whole.length * part))).toMatch(/damaged or cut short/);
    const other = Buffer.from(
      whole.toString('latin1').replace('hvc1', 'vvc1').replace('hvcC', 'vvcC'),
      'latin1',
    );
    expect(await refusal(other)).toMatch(
      /HEIC photograph is of a kind that cannot be read here. Export it as JPEG/,
    );
  });

  it('as something else', async () => {
    expect(await refusal(Buffer.from('%PDF-1.7'))).toMatch(/not a photograph that can be read/);
    expect(await refusal(Buffer.alloc(0))).toBe('The file is empty.');
  });

  it('when it is cut short or only looks like one', async () => {
    const noise = Buffer.from(
      Array.from({ length: 90_000 }, (_, i) => (Math.imul(i, 2654435761) >>> 13) & 255),
    );
    const whole = await sharp(noise, { raw: { width: 200, height: 150, channels: 3 } })
      .jpeg()
      .toBuffer();
    const cut = /damaged or cut short/;
    expect(await refusal(whole.subarray(0, whole.length >> 1))).toMatch(cut);
    expect(await refusal(Buffer.from('\xff\xd8\xff nothing more', 'latin1'))).toMatch(cut);
    expect(await refusal((await picture('png')).subarray(0, 40))).toMatch(cut);
  });

  it('when it would unpack into 20,000 × 20,000 pixels', async () => {
    const bomb = hugePng(20_000);
    expect(bomb.length).toBeLessThan(100_000);
    expect(await refusal(bomb)).toBe(
      'The photograph has 20000 × 20000 pixels; the most is 100 million. Add a smaller copy of it.',
    );
  });
});

describe('reading a photograph', () => {
  it('makes a missing copy again, and says when the original is missing or altered', async () => {
    const dir = temporaryFolder();
    const { sha256 } = await storePhoto(dir, await picture('jpeg'));
    rmSync(layout(dir).thumbnails, { recursive: true });
    expect((await readPhoto(dir, sha256, 'thumbnail')).bytes.length).toBeGreaterThan(20);
    expect(existsSync(copyPath(dir, sha256, 'thumbnail'))).toBe(true);
    rmSync(originalPath(dir, sha256)!);
    expect((await readPhoto(dir, sha256, 'thumbnail')).bytes.length).toBeGreaterThan(20);
    const error = await collectionErrorOf(() => readPhoto(dir, sha256, 'screen'));
    expect([error.code, error.message]).toEqual([
      'photo-missing',
      expect.stringContaining(sha256.slice(0, 8)),
    ]);
  });

  it('leaves no half-made copy where the folder is in the way', async () => {
    const dir = temporaryFolder();
    const { sha256 } = await storePhoto(dir, await picture('jpeg'));
    const path = copyPath(dir, sha256, 'thumbnail');
    rmSync(path);
    mkdirSync(path);
    await expect(readPhoto(dir, sha256, 'thumbnail')).rejects.toThrow(
      /there is a folder where a file belongs/,
    );
    expect(existsSync(`${path}.part`)).toBe(false);
  });
});

describe('a photograph of a car, a lot or a variation', () => {
  it('comes after the others of its own, within an action', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const stored = await storePhoto(collection.dir, await telephonePicture());
    await runAction(collection, 'Added photographs', at, async trx => {
      await addPhoto(trx, stored, { carId: 1, view: 'side', at });
      await addPhoto(trx, stored, { carId: 1, caption: 'after', state: 'restored', at });
      await addPhoto(trx, stored, { carId: 2, at });
      await addPhoto(trx, stored, { lotId: 1, at });
      await addPhoto(trx, stored, { variationId: 3, at });
    });
    const rows = await collection.read.db
      .selectFrom('photo')
      .select(['car_id', 'lot_id', 'variation_id', 'position', 'view', 'caption', 'state', 'taken_on'])
      .orderBy('id')
      .execute();
    const row = (place: object) => ({
      car_id: null,
      lot_id: null,
      variation_id: null,
      position: 0,
      view: '',
      caption: '',
      state: '',
      taken_on: '2024-05-31',
      ...place,
    });
    expect(rows).toEqual([
      row({ car_id: 1, view: 'side' }),
      row({ car_id: 1, position: 1, caption: 'after', state: 'restored' }),
      row({ car_id: 2 }),
      row({ lot_id: 1 }),
      row({ variation_id: 3 }),
    ]);
    await expect(
      runAction(collection, 'Of nothing', at, trx => addPhoto(trx, stored, { at })),
    ).rejects.toThrow(RangeError);
  });
});

describe('the day a photograph was taken', () => {
  it('is none where the block has none, is cut short, or says an impossible day', async () => {
    const exif = (await sharp(await telephonePicture()).metadata()).exif!;
    expect(exifDate(exif)).toBe('2024-05-31');
    expect(exifDate(undefined)).toBeNull();
    for (let length = 0; length < exif.length; length++)
      expect(['2024-05-31', null]).toContain(exifDate(exif.subarray(0, length)));
    const impossible = Buffer.from(exif.toString('latin1').replace('2024:05:31', '2024:13:41'), 'latin1');
    expect(exifDate(impossible)).toBeNull();
    const loop = Buffer.from(exif);
    expect(() => exifDate(loop.fill(0xff, 10))).not.toThrow();
  });
});

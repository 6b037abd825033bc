import { readFileSync } from 'node:fs';
import { crc32, deflateSync } from 'node:zlib';
import sharp from 'sharp';

/** A plain photograph in one of the formats that sharp writes. */
export const picture = (
  format: 'jpeg' | 'png' | 'webp' | 'tiff' | 'avif' | 'gif',
  { width = 64, height = 48, background = '#a33' } = {},
): Promise<Buffer> =>
  sharp({ create: { width, height, channels: 3, background } })
    [format]()
    .toBuffer();

/**
 * A photograph as a telephone makes it: lying on its side, with the place, the camera and the day
 * in its Exif block.
 */
export const telephonePicture = (background = '#3a3'): Promise<Buffer> =>
  sharp({ create: { width: 800, height: 600, channels: 3, background } })
    .withExif({
      IFD0: { Model: 'Quillon camera' },
      IFD2: { DateTimeOriginal: '2024:05:31 17:45:00' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 0/1',
        GPSLongitudeRef: 'W',
        GPSLongitude: '0/1 7/1 0/1',
      },
    })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();

export type HeicName = 'turned' | 'mirrored' | 'wide-colours';

/** A HEIC file as `make-heic-fixtures.ts` drew it, with a place, a camera and a time. */
export const heicFile = (name: HeicName): Buffer =>
  readFileSync(new URL(`../../fixtures/photographs/${name}.heic`, import.meta.url));

/** A PNG of a few kilobytes that unpacks into `side` × `side` black pixels. */
export const hugePng = (side: number): Buffer => {
  const chunk = (type: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
    const whole = Buffer.alloc(body.length + 8);
    whole.writeUInt32BE(data.length, 0);
    body.copy(whole, 4);
    whole.writeUInt32BE(crc32(body), body.length + 4);
    return whole;
  };
  const header = Buffer.alloc(13);
  header.writeUInt32BE(side, 0);
  header.writeUInt32BE(side, 4);
  header[8] = 1;
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.alloc(side * (Math.ceil(side / 8) + 1)))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
};

/**
 * Draws the HEIC files in tests/fixtures/photographs: `node tests/helpers/make-heic-fixtures.ts`. It needs
 * heif-enc (Debian's libheif-examples). Four fields tell which way up a picture is; its Exif block has a
 * place, a camera and a time as telephones write them. heif-enc writes no turns, so the boxes that say them
 * are put in here (ISO/IEC 23008-12, 6.5.10 and 6.5.12).
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp, { type Sharp } from 'sharp';

const goal = fileURLToPath(new URL('../fixtures/photographs/', import.meta.url));

const fields = Buffer.from(
  `<svg xmlns="http://www.w3.org/2000/svg" width="320" height="240"><rect width="160" height="120" fill="#c02020"/>
   <rect x="160" width="160" height="120" fill="#20a020"/><rect y="120" width="160" height="120" fill="#2030c0"/>
   <rect x="160" y="120" width="160" height="120" fill="#f0f0f0"/></svg>`,
);

const exif = (time: string) => ({
  IFD0: { Model: 'Quillon camera' },
  IFD2: { DateTimeOriginal: time },
  IFD3: {
    GPSLatitudeRef: 'N',
    GPSLatitude: '51/1 30/1 0/1',
    GPSLongitudeRef: 'W',
    GPSLongitude: '0/1 7/1 0/1',
  },
});

const startOf = (file: Buffer, type: string) => file.indexOf(type, 0, 'latin1') - 4;

/**
 * A HEIC of one picture with more properties of it, whose boxes are given; offsets to what lies behind them
 * move along.
 */
const withProperties = (file: Buffer, boxes: Buffer[]): Buffer => {
  const out = Buffer.from(file);
  const [meta, iprp, ipco, ipma, iloc] = ['meta', 'iprp', 'ipco', 'ipma', 'iloc'].map(type =>
    startOf(out, type),
  ) as [number, number, number, number, number];
  let there = 0;
  const endOfIpco = ipco + out.readUInt32BE(ipco);
  for (let at = ipco + 8; at < endOfIpco; at += out.readUInt32BE(at)) there++;
  // Version 0 of ipma: count of items, then of the first its number and its count of associations.
  const associations = ipma + 18;
  const endOfAssociations = associations + 1 + out[associations]!;
  out[associations]! += boxes.length;
  const added = Buffer.concat(boxes);
  const links = Buffer.from(boxes.map((_, i) => 0x80 | (there + i + 1)));
  const grow = (at: number, by: number) => out.writeUInt32BE(out.readUInt32BE(at) + by, at);
  const shift = added.length + links.length;
  grow(meta, shift);
  grow(iprp, shift);
  grow(ipco, added.length);
  grow(ipma, links.length);
  // Version 0 of iloc with 4-byte offsets, lengths and bases: of each item one extent, which counts from its
  // base.
  const items = out.readUInt16BE(iloc + 14);
  for (let i = 0; i < items; i++) grow(iloc + 16 + i * 18 + 4, shift);
  return Buffer.concat([
    out.subarray(0, endOfIpco),
    added,
    out.subarray(endOfIpco, endOfAssociations),
    links,
    out.subarray(endOfAssociations),
  ]);
};

/** A box of one byte: a quarter turn to the left times n, or the axis of a mirror. */
const turn = (type: 'irot' | 'imir', value: number) =>
  Buffer.concat([Buffer.from([0, 0, 0, 9]), Buffer.from(type, 'latin1'), Buffer.from([value])]);

const folder = mkdtempSync(join(tmpdir(), 'playworn-heic-'));
const encoded = async (time: string, change: (image: Sharp) => Sharp = image => image) => {
  const [jpeg, heic] = [join(folder, 'drawn.jpg'), join(folder, 'drawn.heic')];
  writeFileSync(jpeg, await change(sharp(fields).jpeg({ quality: 95 }).withExif(exif(time))).toBuffer());
  execFileSync('heif-enc', ['-q', '70', '-o', heic, jpeg]);
  return readFileSync(heic);
};
mkdirSync(goal, { recursive: true });
const write = (name: string, bytes: Buffer) => writeFileSync(join(goal, name), bytes);
const sideways = await encoded('2024:05:31 17:45:00', image => image.withMetadata({ orientation: 6 }));
write('turned.heic', withProperties(sideways, [turn('irot', 3)]));
write('mirrored.heic', withProperties(await encoded('2024:05:31 17:45:20'), [turn('imir', 1)]));
write('wide-colours.heic', await encoded('2024:05:31 17:50:00', image => image.withIccProfile('p3')));
rmSync(folder, { recursive: true });

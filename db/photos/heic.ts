import { Worker } from 'node:worker_threads';
import { crc32, deflateSync } from 'node:zlib';
import { CollectionError } from '../errors.ts';
import { oneAtATime } from '../one-at-a-time.ts';
import type { HeicAnswer, HeicJob } from './heic-worker.ts';
import { loadSharp } from './sharp.ts';

/**
 * A PNG with a colour profile as its `iCCP` chunk, which stands behind the header (PNG, third edition,
 * 11.3.2.3).
 */
const withProfile = (png: Buffer, profile: Buffer): Buffer => {
  const body = Buffer.concat([Buffer.from('iCCPcamera\0\0', 'latin1'), deflateSync(profile)]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(body.length - 4);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  const headerEnd = 33;
  return Buffer.concat([png.subarray(0, headerEnd), length, body, check, png.subarray(headerEnd)]);
};

// A picture of a telephone takes some hundred megabytes while it is decoded.
const inTurn = oneAtATime();

const decodeAside = (bytes: HeicJob, worker: URL): Promise<HeicAnswer> => {
  const thread = new Worker(worker, { workerData: bytes });
  return new Promise<HeicAnswer>((resolve, reject) => {
    thread.once('message', resolve);
    thread.once('error', reject);
    thread.once('exit', () => reject(new Error('The decoder of a HEIC photograph ended without an answer.')));
  }).finally(() => thread.terminate());
};

/**
 * The picture of a HEIC file as a PNG of the same pixels, upright, with the file's colour profile and nothing
 * else of its metadata. What turns it are the file's own `irot` and `imir` alone: the orientation in its Exif
 * block says the same once more, and is not to be applied (ISO/IEC 23008-12). It is decoded in a worker
 * thread, so that other calls are answered meanwhile, and one picture at a time; each has a decoder of
 * its own, whose memory goes with it and which a damaged file cannot spoil for the next. `worker` is the
 * worker's file where it does not lie beside this one. Throws CollectionError 'photo-refused' where the picture
 * is damaged or of a kind that cannot be read.
 */
export const decodeHeic = async (
  bytes: Uint8Array,
  worker = new URL('./heic-worker.ts', import.meta.url),
): Promise<Buffer> => {
  const answer = await inTurn(() => decodeAside(bytes, worker));
  if (answer.kind !== 'decoded')
    throw new CollectionError(
      { kind: answer.kind === 'unsupported' ? 'photo-heic' : 'photo-unreadable' },
      { cause: new Error(answer.message) },
    );
  const sharp = await loadSharp();
  const { icc } = await sharp(bytes, { limitInputPixels: false }).metadata();
  const { samples, width, height, channels } = answer;
  const png = await sharp(samples, { raw: { width, height, channels } })
    .png({ compressionLevel: 0 })
    .toBuffer();
  return icc ? withProfile(png, icc) : png;
};

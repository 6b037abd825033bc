import { crc32, deflateSync } from 'node:zlib';
import { CollectionError } from '../errors.ts';
import { loadSharp } from './sharp.ts';

interface Fault {
  code: object;
  message: string;
}
type Handle = object;
interface Plane {
  data: Uint8Array;
  stride: number;
  width: number;
  height: number;
}

/** What is used of libheif in WebAssembly, which carries no types for the form in which it is loaded. */
interface Libheif {
  heif_context_alloc: () => Handle;
  heif_context_read_from_memory: (context: Handle, bytes: Uint8Array) => Fault;
  heif_js_context_get_primary_image_handle: (context: Handle) => Handle | Fault;
  heif_image_handle_has_alpha_channel: (handle: Handle) => number;
  heif_js_decode_image2: (handle: Handle, space: object, chroma: object) => { channels: [Plane] } | Fault;
  heif_colorspace: { heif_colorspace_RGB: object };
  heif_chroma: { heif_chroma_interleaved_RGB: object; heif_chroma_interleaved_RGBA: object };
  heif_error_code: Record<
    | 'heif_error_Ok'
    | 'heif_error_Unsupported_filetype'
    | 'heif_error_Unsupported_feature'
    | 'heif_error_Plugin_loading_error',
    object
  >;
}

const isFault = (answer: object): answer is Fault => 'code' in answer;

const checked = <T extends object>({ heif_error_code: codes }: Libheif, answer: T | Fault): T => {
  if (!isFault(answer) || answer.code === codes.heif_error_Ok) return answer as T;
  const unsupported =
    answer.code === codes.heif_error_Unsupported_filetype ||
    answer.code === codes.heif_error_Unsupported_feature ||
    answer.code === codes.heif_error_Plugin_loading_error;
  throw new CollectionError(
    { kind: unsupported ? 'photo-heic' : 'photo-unreadable' },
    { cause: new Error(answer.message) },
  );
};

/** The rows of a plane one after the other, without what pads them. */
const packed = ({ data, stride, width, height }: Plane, channels: number): Buffer => {
  const row = width * channels;
  const rows = Buffer.alloc(row * height);
  for (let y = 0; y < height; y++) rows.set(data.subarray(y * stride, y * stride + row), y * row);
  return rows;
};

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

/**
 * The picture of a HEIC file as a PNG of the same pixels, upright, with the file's colour profile and nothing
 * else of its metadata. What turns it are the file's own `irot` and `imir` alone: the orientation in its Exif
 * block says the same once more, and is not to be applied (ISO/IEC 23008-12). Each picture has a decoder of
 * its own, whose memory goes with it and which a damaged file cannot spoil for the next. Throws
 * CollectionError 'photo-refused' where it is damaged or of a kind that cannot be read.
 */
export const decodeHeic = async (bytes: Uint8Array): Promise<Buffer> => {
  const { default: load }: { default: () => Libheif } = await import(
    // @ts-expect-error: no types for this form; those of the other one say `any` of what is used.
    'libheif-js/libheif-wasm/libheif-bundle.js'
  );
  const heif = load();
  let plane: Plane;
  let channels: 3 | 4;
  try {
    const context = heif.heif_context_alloc();
    checked(heif, heif.heif_context_read_from_memory(context, bytes));
    const handle = checked(heif, heif.heif_js_context_get_primary_image_handle(context));
    channels = heif.heif_image_handle_has_alpha_channel(handle) ? 4 : 3;
    const { heif_chroma_interleaved_RGB: rgb, heif_chroma_interleaved_RGBA: rgba } = heif.heif_chroma;
    const picture = heif.heif_js_decode_image2(
      handle,
      heif.heif_colorspace.heif_colorspace_RGB,
      channels === 4 ? rgba : rgb,
    );
    plane = checked(heif, picture).channels[0];
  } catch (error) {
    // A decoder that stops for good on a damaged file throws what its language throws.
    throw error instanceof CollectionError
      ? error
      : new CollectionError({ kind: 'photo-unreadable' }, { cause: error });
  }
  const sharp = await loadSharp();
  const { icc } = await sharp(bytes, { limitInputPixels: false }).metadata();
  const { width, height } = plane;
  const png = await sharp(packed(plane, channels), { raw: { width, height, channels } })
    .png({ compressionLevel: 0 })
    .toBuffer();
  return icc ? withProfile(png, icc) : png;
};

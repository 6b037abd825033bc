import { parentPort, workerData } from 'node:worker_threads';

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

/** What the worker is started with: the bytes of a HEIC file. */
export type HeicJob = Uint8Array;

/** The picture's samples row by row, upright, or why there is none. */
export type HeicAnswer =
  | { kind: 'decoded'; samples: Uint8Array; width: number; height: number; channels: 3 | 4 }
  | { kind: 'unsupported' | 'unreadable'; message: string };

/** Why libheif gives no picture. */
class HeifFault extends Error {
  readonly kind: 'unsupported' | 'unreadable';
  constructor(kind: 'unsupported' | 'unreadable', message: string) {
    super(message);
    this.kind = kind;
  }
}

const isFault = (answer: object): answer is Fault => 'code' in answer;

const checked = <T extends object>({ heif_error_code: codes }: Libheif, answer: T | Fault): T => {
  if (!isFault(answer) || answer.code === codes.heif_error_Ok) return answer as T;
  const unsupported =
    answer.code === codes.heif_error_Unsupported_filetype ||
    answer.code === codes.heif_error_Unsupported_feature ||
    answer.code === codes.heif_error_Plugin_loading_error;
  throw new HeifFault(unsupported ? 'unsupported' : 'unreadable', answer.message);
};

/** The rows of a plane one after the other, without what pads them. */
const packed = ({ data, stride, width, height }: Plane, channels: number): Uint8Array<ArrayBuffer> => {
  const row = width * channels;
  const rows = new Uint8Array(row * height);
  for (let y = 0; y < height; y++) rows.set(data.subarray(y * stride, y * stride + row), y * row);
  return rows;
};

const decode = (heif: Libheif, bytes: HeicJob) => {
  const context = heif.heif_context_alloc();
  checked(heif, heif.heif_context_read_from_memory(context, bytes));
  const handle = checked(heif, heif.heif_js_context_get_primary_image_handle(context));
  const channels = heif.heif_image_handle_has_alpha_channel(handle) ? 4 : 3;
  const { heif_chroma_interleaved_RGB: rgb, heif_chroma_interleaved_RGBA: rgba } = heif.heif_chroma;
  const picture = heif.heif_js_decode_image2(
    handle,
    heif.heif_colorspace.heif_colorspace_RGB,
    channels === 4 ? rgba : rgb,
  );
  const plane = checked(heif, picture).channels[0];
  const { width, height } = plane;
  return { kind: 'decoded' as const, samples: packed(plane, channels), width, height, channels } as const;
};

if (parentPort) {
  const { default: load }: { default: () => Libheif } = await import(
    // @ts-expect-error: no types for this form; those of the other one say `any` of what is used.
    'libheif-js/libheif-wasm/libheif-bundle.js'
  );
  const heif = load();
  try {
    const answer = decode(heif, workerData as HeicJob);
    parentPort.postMessage(answer satisfies HeicAnswer, [answer.samples.buffer]);
  } catch (error) {
    // A decoder that stops for good on a damaged file throws what its language throws.
    const kind = error instanceof HeifFault ? error.kind : 'unreadable';
    const message = error instanceof Error ? error.message : String(error);
    parentPort.postMessage({ kind, message } satisfies HeicAnswer);
  }
}

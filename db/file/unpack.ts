import type { FileEntry } from '@zip.js/zip.js';

/**
 * The bytes of one file of a ZIP archive, piece by piece; its checksum is compared at the end. Throws what
 * unpacking throws; whoever stops reading early stops the unpacking.
 */
export const unpacked = async function* (entry: FileEntry): AsyncGenerator<Uint8Array> {
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>();
  const stop = new AbortController();
  const unpacking = entry.getData(writable, {
    checkSignature: true,
    useWebWorkers: false,
    signal: stop.signal,
  });
  // A failure leaves the stream open: it is waited for beside each piece.
  const failure = unpacking.then(
    () => new Promise<never>(() => {}),
    error => Promise.reject(error),
  );
  failure.catch(() => {});
  const reader = readable.getReader();
  let whole = false;
  try {
    for (;;) {
      const { done, value } = await Promise.race([reader.read(), failure]);
      if (done) break;
      yield value;
    }
    await unpacking;
    whole = true;
  } finally {
    if (!whole) stop.abort();
  }
};

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

let gc: ((how: object) => void) | undefined;

/** Has V8 collect at once: all there is, or as it is told; where V8 cannot be asked, it is left alone. */
export const collect = (how: object = { type: 'major', execution: 'sync' }): void => {
  if (!gc) {
    setFlagsFromString('--expose-gc');
    gc = runInNewContext('globalThis.gc');
  }
  gc?.(how);
};

/**
 * Lets go of what the compiler holds outside V8's own heap for objects that nobody refers to any more: V8
 * does not see how large those are, so that it would collect them too late or never.
 */
export const freeMemory = async (): Promise<void> => {
  collect();
  // What the collection finds is let go of on the next turn of the event loop.
  await new Promise(resolve => setImmediate(resolve));
};

import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

setFlagsFromString('--expose-gc');
const collect: () => void = runInNewContext('gc');

/**
 * Lets go of what the compiler holds outside V8's own heap for objects that nobody refers to any more: V8
 * does not see how large those are, so that it would collect them too late or never.
 */
export const freeMemory = async (): Promise<void> => {
  collect();
  // What the collection finds is let go of on the next turn of the event loop.
  await new Promise(resolve => setImmediate(resolve));
};

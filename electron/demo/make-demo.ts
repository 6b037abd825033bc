import type { Collection } from '../../db/collection.ts';
import { demoContent } from './demo-content.ts';
import { pastWorths } from './market/past-worths.ts';
import { writeDemo } from './write-demo.ts';

interface MakeDemoOptions {
  /** Instant of the action in history; nothing else in the demo depends on the clock. */
  at: string;
  /** Photographs drawn so far, of all. */
  onProgress: (done: number, total: number) => void;
  signal: AbortSignal;
}

/**
 * Fills an empty collection with the demo and its past values, as the engine worked them out month by
 * month. Throws Error where the collection is not empty; an aborted signal throws its reason and
 * leaves no rows behind.
 */
export const makeDemo = async (collection: Collection, options: MakeDemoOptions): Promise<void> => {
  const content = demoContent();
  const valuations = await pastWorths(content, options.signal);
  await writeDemo(collection, content, { ...options, valuations });
};

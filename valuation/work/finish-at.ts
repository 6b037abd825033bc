import type { IsoDate } from '../types.ts';
import type { FinishState } from '../words.ts';

/**
 * The finish that a car had on a day, as far as the records of work tell: that of the last work finished by
 * then, else the one that it had before its first. `work` is the newest first; without any record it is the
 * finish that the car has now.
 */
export const finishAt = (
  on: IsoDate,
  work: readonly { finishedOn: IsoDate; finishState: FinishState; finishBefore: FinishState }[],
  now: FinishState,
): FinishState =>
  work.find(({ finishedOn }) => finishedOn <= on)?.finishState ?? work.at(-1)?.finishBefore ?? now;

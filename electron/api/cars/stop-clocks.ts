import type { Transaction } from 'kysely';
import { type Job, type JobStep, startTime, stopTime } from '../../../db/records/bench/jobs.ts';
import type { Schema } from '../../../db/schema.ts';
import { countSpan } from '../../../valuation/work/count-span.ts';

/** Clocks that were started together, by a name of their own. */
const groupOf = ({ id, step, runningSince, sharedBy }: JobStep): string =>
  sharedBy === 1 ? `${id}` : `${step} ${runningSince} ${sharedBy}`;

/**
 * Stops the clocks that run on steps. Where other cars share the time of one of them, theirs runs on, shared
 * by those that are left.
 */
export const stopClocks = async (
  trx: Transaction<Schema>,
  jobs: readonly Job[],
  steps: readonly JobStep[],
  at: string,
): Promise<void> => {
  const stopped = new Set(steps.map(({ id }) => id));
  const running = jobs.flatMap(job => job.steps).filter(({ runningSince }) => runningSince !== null);
  for (const together of Map.groupBy(running, groupOf).values()) {
    const left = together.filter(({ id }) => !stopped.has(id));
    if (left.length === together.length) continue;
    const seconds = countSpan(together[0]!.runningSince!, at);
    for (const { id } of together) await stopTime(trx, id, at, seconds);
    // What cannot be counted for those that stop cannot be counted for those that go on either.
    for (const { id } of left) await startTime(trx, id, at, left.length);
  }
};

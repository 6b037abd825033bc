import type { Job } from '../../../db/records/bench/jobs.ts';
import type { Currency, FinishState, Grade, WorkStep } from '../../../valuation/index.ts';
import type { DoneJob, DoneOfStep } from '../views.ts';

/** What is known of the car of a finished job. */
export interface Ended {
  inventoryNumber: string;
  finishState: FinishState;
  reached: Grade | null;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);
const meanOf = (numbers: readonly number[]): number | null =>
  numbers.length === 0 ? null : sum(numbers) / numbers.length;

/** Each finished job beside its plan, the newest first. Amounts in other currencies are left out. */
export const doneJobs = (jobs: readonly Job[], endOf: (job: Job) => Ended, currency: Currency): DoneJob[] =>
  jobs
    .map(job => {
      const seconds = sum(job.steps.map(step => step.seconds));
      return {
        carId: job.carId,
        ...endOf(job),
        endedAt: job.endedAt,
        plannedHours: sum(job.steps.map(({ hands }) => hands.likely)) / 60,
        takenHours: seconds > 0 ? seconds / 3600 : null,
        plannedCost: job.plannedCost?.currency === currency ? job.plannedCost.minor : null,
        takenCost: sum(job.uses.filter(use => use.currency === currency).map(({ minor }) => minor)),
        aim: job.aim,
        spoiledAt: job.steps.filter(({ spoiled }) => spoiled).map(({ name }) => name),
      };
    })
    .sort((a, b) => (b.endedAt ?? '').localeCompare(a.endedAt ?? ''));

/**
 * Each step of the library over the finished jobs on which it was done: minutes of those whose time can be
 * counted wholly, materials of those where any were written down; both as means, with the plan's beside them.
 */
export const doneByStep = (
  jobs: readonly Job[],
  steps: readonly WorkStep[],
  currency: Currency,
): DoneOfStep[] => {
  const done = Map.groupBy(
    jobs.flatMap(({ steps: all, uses }) =>
      all
        .filter(({ state }) => state === 'done')
        .map(step => ({
          step,
          spent: uses.filter(use => use.stepId === step.id && use.part === null && use.currency === currency),
        })),
    ),
    ({ step }) => step.step,
  );
  return steps.flatMap(({ id, name, materials }) => {
    const times = done.get(id);
    if (!times) return [];
    const timed = times.filter(({ step }) => step.seconds > 0 && step.uncounted === 0);
    const of = timed.length > 0 ? timed : times;
    return [
      {
        id,
        name,
        done: times.length,
        timed: timed.length,
        plannedMinutes: meanOf(of.map(({ step }) => step.hands.likely)) ?? 0,
        takenMinutes: meanOf(timed.map(({ step }) => step.seconds / 60)),
        plannedCost: sum(materials.map(({ cost }) => cost.likely)),
        takenCost: meanOf(
          times
            .filter(({ spent }) => spent.length > 0)
            .map(({ spent }) => sum(spent.map(({ minor }) => minor))),
        ),
        spoiled: times.filter(({ step }) => step.spoiled).length,
      },
    ];
  });
};

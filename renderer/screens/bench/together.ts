import type { JobView } from '../../../electron/api/views.ts';
import { isOver } from './job-words.ts';

type Step = JobView['steps'][number];

/** A step of another car. */
export interface Sharer {
  job: JobView;
  step: Step;
}

/**
 * The other cars on the bench that have the same step to do, its clock as still or started as together as
 * this one's.
 */
export const sharersOf = (step: Step, job: JobView, jobs: readonly JobView[]): Sharer[] =>
  step.state !== 'to do' || step.step === ''
    ? []
    : jobs.flatMap(other => {
        if (other.id === job.id || isOver(other)) return [];
        const same = other.steps.find(
          one => one.step === step.step && one.state === 'to do' && one.runningSince === step.runningSince,
        );
        return same ? [{ job: other, step: same }] : [];
      });

/** Those that are done at once with the step: what runs together stops together, else the chosen ones. */
export const joinedOf = (step: Step, sharers: readonly Sharer[], chosen: readonly number[]): Sharer[] =>
  sharers.filter(({ job }) => (step.runningSince !== null ? step.sharedBy > 1 : chosen.includes(job.id)));

import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';

type Step = JobView['steps'][number];

const stateNotes = { done: 'done', 'left out': 'left out', 'to do': 'to be done again' };

/** What is done on a job at its steps. */
export const useJobActions = (job: JobView) => {
  const nameOf = (id: number) => job.steps.find(step => step.id === id)?.name ?? 'Step';
  const tick = useAction((input: Parameters<typeof api.bench.setStep>[0]) => api.bench.setStep(input), {
    label: ({ stepId, also, state }) =>
      `${nameOf(stepId)}: ${stateNotes[state]}${also?.length ? ` on ${also.length + 1} cars` : ''}`,
  });
  /** Starts the clocks of steps that stand still, or stops those that run. */
  const clock = useAction(
    (steps: readonly Step[]) => {
      const stepIds = steps.map(({ id }) => id);
      return steps[0]?.runningSince == null ? api.bench.start({ stepIds }) : api.bench.stop({ stepIds });
    },
    { label: steps => (steps[0]?.runningSince == null ? 'Clock started' : 'Clock stopped') },
  );
  const change = useAction((state: 'open' | 'paused') => api.bench.change({ id: job.id, state }), {
    label: state => (state === 'open' ? 'Job resumed' : 'Job paused'),
  });
  return { tick, clock, change };
};

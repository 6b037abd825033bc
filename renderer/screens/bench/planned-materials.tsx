import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { amountText } from '../../components/format.ts';
import { readerWords } from '../../components/words.ts';
import classes from './bench.module.css';

/** What the car’s plan counts on for the steps of a job and is not written down yet: one press each, at its likely cost. */
export const PlannedMaterials = ({ job, currency }: { job: JobView; currency: string }) => {
  const { carId, kind } = job;
  const planned = useQuery({
    queryKey: ['plan', carId, kind],
    queryFn: () => api.plans.view({ carId, kind }),
  });
  const add = useAction(
    (one: { stepId: number; name: string; minor: number }) =>
      api.bench.addMaterial({ jobId: job.id, ...one, currency }),
    { label: ({ name }) => `${name} used` },
  );
  const used = new Set(job.uses.map(({ name }) => name));
  const steps = new Map(job.steps.map(({ id, step, state }) => [step, state === 'left out' ? null : id]));
  const open = (planned.data?.plan.lines ?? []).flatMap(({ id, materials }) => {
    const stepId = steps.get(id) ?? null;
    return stepId === null
      ? []
      : materials
          .filter(({ name }) => !used.has(name))
          .map(({ name, cost }) => ({ stepId, name, minor: Math.round(cost.likely) }));
  });
  if (open.length === 0) return null;
  const { spell } = readerWords();
  return (
    <fieldset className={classes.planned}>
      <legend>As planned</legend>
      {open.map(one => (
        <Button
          key={`${one.stepId} ${one.name}`}
          size="compact-sm"
          loading={add.isPending && add.variables?.name === one.name}
          onClick={() => add.mutate(one)}
        >
          {spell(one.name)} {amountText(one.minor, currency)}
        </Button>
      ))}
    </fieldset>
  );
};

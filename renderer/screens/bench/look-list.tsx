import { Checkbox } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { readerWords } from '../../components/words.ts';
import classes from './bench.module.css';

/** What to look at before the car is closed, ticked off one by one. */
export const LookList = ({ job, disabled }: { job: JobView; disabled: boolean }) => {
  const look = useAction(
    (input: { key: string; seen: boolean }) => api.bench.look({ jobId: job.id, ...input }),
    { label: ({ seen }) => (seen ? 'Looked at' : 'To be looked at again') },
  );
  // A tick is seen at once, and stays as the collection has it.
  const [seen, setSeen] = useState<readonly string[]>(job.lookedAt);
  useEffect(() => setSeen(job.lookedAt), [job.lookedAt]);
  if (job.lookList.length === 0) return null;
  const left = job.lookList.filter(({ key }) => !seen.includes(key)).length;
  return (
    <fieldset className={classes.look}>
      <legend>
        Before it is closed{' '}
        <span className={classes.soft}>{left === 0 ? 'all looked at' : `${left} to look at`}</span>
      </legend>
      {job.assembly ? <p className={classes.soft}>Order of this casting: {job.assembly}</p> : null}
      {job.lookList.map(({ key, text }) => (
        <Checkbox
          key={key}
          label={readerWords().spell(text)}
          checked={seen.includes(key)}
          disabled={disabled}
          onChange={event => {
            const ticked = event.currentTarget.checked;
            setSeen(ticked ? [...seen, key] : seen.filter(other => other !== key));
            look.mutate({ key, seen: ticked });
          }}
        />
      ))}
    </fieldset>
  );
};

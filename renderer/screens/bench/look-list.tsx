import { Checkbox } from '@mantine/core';
import { useState } from 'react';
import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { drawn } from '../../components/waiting/drawn.ts';
import { readerWords } from '../../components/words.ts';
import classes from './bench.module.css';

/** What to look at before the car is closed, ticked off one by one. */
export const LookList = ({ job, disabled }: { job: JobView; disabled: boolean }) => {
  const look = useAction(
    (input: { key: string; seen: boolean }) => api.bench.look({ jobId: job.id, ...input }),
    { label: ({ seen }) => (seen ? 'Looked at' : 'To be looked at again') },
  );
  // A tick is seen at once, and stands until what was saved is shown: another answer may come in between.
  const [underway, setUnderway] = useState<ReadonlyMap<string, { seen: boolean }>>(new Map());
  const isSeen = (key: string) => underway.get(key)?.seen ?? job.lookedAt.includes(key);
  const tick = async (key: string, seen: boolean) => {
    const own = { seen };
    setUnderway(before => new Map(before).set(key, own));
    await look.mutateAsync({ key, seen }).catch(() => undefined);
    await drawn();
    setUnderway(before => new Map([...before].filter(([, one]) => one !== own)));
  };
  if (job.lookList.length === 0) return null;
  const left = job.lookList.filter(({ key }) => !isSeen(key)).length;
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
          checked={isSeen(key)}
          disabled={disabled}
          onChange={event => void tick(key, event.currentTarget.checked)}
        />
      ))}
    </fieldset>
  );
};

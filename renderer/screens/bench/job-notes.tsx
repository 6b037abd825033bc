import { Textarea, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import classes from './bench.module.css';

/** Notes of the whole job, and who does it; saved when the field is left. */
export const JobNotes = ({ job, disabled }: { job: JobView; disabled: boolean }) => {
  const [notes, setNotes] = useState(job.notes);
  const [who, setWho] = useState(job.who);
  useEffect(() => setNotes(job.notes), [job.notes]);
  useEffect(() => setWho(job.who), [job.who]);
  const save = useAction(
    (input: { notes?: string; who?: string }) => api.bench.note({ id: job.id, ...input }),
    { label: 'Notes saved' },
  );
  return (
    <section className={classes.block} aria-label="Notes">
      <h3>Notes</h3>
      <Textarea
        aria-label="Notes of the job"
        autosize
        minRows={2}
        value={notes}
        disabled={disabled}
        onChange={event => setNotes(event.currentTarget.value)}
        onBlur={() => notes !== job.notes && save.mutate({ notes })}
      />
      <TextInput
        label="Who does it"
        value={who}
        maxLength={200}
        disabled={disabled}
        onChange={event => setWho(event.currentTarget.value)}
        onBlur={() => who !== job.who && save.mutate({ who })}
      />
    </section>
  );
};

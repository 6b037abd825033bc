import { Button, Checkbox, NumberInput, Textarea } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { JobView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { CautionList } from '../../components/cautions/caution-list.tsx';
import classes from './bench.module.css';
import { StepPhotos } from './step-photos.tsx';
import type { Sharer } from './together.ts';

type Step = JobView['steps'][number];

/** Time that no clock has counted, entered by hand. */
const EnterTime = ({ step, joined }: { step: Step; joined: readonly Sharer[] }) => {
  const [minutes, setMinutes] = useState<number | string>('');
  const also = joined.map(other => other.step.id);
  const add = useAction((many: number) => api.bench.enterTime({ stepId: step.id, also, minutes: many }), {
    label: many => `${many} min added${also.length > 0 ? `, shared by ${also.length + 1} cars` : ''}`,
    onDone: () => setMinutes(''),
  });
  const whole = typeof minutes === 'number' && minutes >= 1 ? Math.round(minutes) : null;
  return (
    <div className={classes.enterTime}>
      <NumberInput
        label="Minutes by hand"
        value={minutes}
        min={1}
        max={1440}
        allowDecimal={false}
        hideControls
        onChange={setMinutes}
      />
      <Button disabled={whole === null} loading={add.isPending} onClick={() => whole && add.mutate(whole)}>
        Add
      </Button>
    </div>
  );
};

/**
 * What belongs to a step beside its tick: cautions, a note, photographs, time by hand, and who shares its
 * time.
 */
export const StepDetails = ({
  job,
  step,
  over,
  sharers,
  joined,
  onTogether,
}: {
  job: JobView;
  step: Step;
  over: boolean;
  /** Other cars with this step to do, and those of them that are done at once with this one. */
  sharers: readonly Sharer[];
  joined: readonly Sharer[];
  onTogether: (jobIds: readonly number[]) => void;
}) => {
  const chosen = joined.map(other => other.job.id);
  const [note, setNote] = useState(step.note);
  useEffect(() => setNote(step.note), [step.note]);
  const save = useAction(
    (input: { note?: string; spoiled?: boolean }) =>
      api.bench.setStep({ stepId: step.id, state: step.state, ...input }),
    { label: 'Step saved' },
  );
  const leave = useAction(
    () => api.bench.setStep({ stepId: step.id, state: step.state === 'left out' ? 'to do' : 'left out' }),
    { label: step.state === 'left out' ? 'Step taken in again' : 'Step left out' },
  );
  return (
    <>
      <CautionList hazards={step.hazards} open />
      {sharers.length > 0 ? (
        <fieldset className={classes.sharers}>
          <legend>At the same time: one tick, and the time shared</legend>
          {sharers.map(({ job: other }) => (
            <Checkbox
              key={other.id}
              label={`${other.inventoryNumber} ${other.casting ?? ''}`}
              checked={chosen.includes(other.id)}
              disabled={step.runningSince !== null}
              onChange={event =>
                onTogether(
                  event.currentTarget.checked ? [...chosen, other.id] : chosen.filter(id => id !== other.id),
                )
              }
            />
          ))}
        </fieldset>
      ) : null}
      <Textarea
        label="Note of this step"
        autosize
        minRows={1}
        value={note}
        disabled={over}
        onChange={event => setNote(event.currentTarget.value)}
        onBlur={() => note !== step.note && save.mutate({ note })}
      />
      <StepPhotos job={job} step={step} disabled={over} />
      {over ? null : (
        <div className={classes.stepTools}>
          <EnterTime step={step} joined={joined} />
          <Checkbox
            label="Went wrong here"
            checked={step.spoiled}
            onChange={event => save.mutate({ spoiled: event.currentTarget.checked })}
          />
          <Button variant="subtle" onClick={() => leave.mutate()}>
            {step.state === 'left out' ? 'Take this step in again' : 'Leave this step out'}
          </Button>
        </div>
      )}
    </>
  );
};

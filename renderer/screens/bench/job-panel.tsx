import { Button, Modal, Textarea } from '@mantine/core';
import { useEffect, useState } from 'react';
import { Link, useLocation } from 'wouter';
import type { JobView } from '../../../electron/api/views.ts';
import { colourNow } from '../../../valuation/wording/cars/disclosure-text.ts';
import { finishLeft } from '../../../valuation/work/finish-left.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { KeyHint } from '../../components/keys/key-hint.tsx';
import { useKeys } from '../../components/keys/use-keys.ts';
import { LacquerChip } from '../../components/lacquer-chip/lacquer-chip.tsx';
import { GradeBadge } from '../../components/marks/grade-badge.tsx';
import { useWords } from '../../components/words.ts';
import classes from './bench.module.css';
import { JobNotes } from './job-notes.tsx';
import { isOver, stepAt, timeText } from './job-words.ts';
import { LookList } from './look-list.tsx';
import { StepRow } from './step-row.tsx';
import { joinedOf, sharersOf } from './together.ts';
import { useJobActions } from './use-job-actions.ts';
import { Uses } from './uses.tsx';

type Step = JobView['steps'][number];

const lookStep = 'look-before-closing';

/** Asks why a job is given up. */
const GiveUp = ({ job, onClose }: { job: JobView; onClose: () => void }) => {
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  const give = useAction(() => api.bench.change({ id: job.id, state: 'given up', reason: reason.trim() }), {
    label: `${job.inventoryNumber} given up`,
    onDone: onClose,
  });
  const { spell } = useWords();
  const done = job.steps.flatMap(({ step, state }) => (state === 'done' ? [step] : []));
  const left = finishLeft(job.kind, done, job.finishState);
  return (
    <Modal opened onClose={onClose} title="Give this job up" closeButtonProps={{ 'aria-label': 'Close' }}>
      <Textarea
        label="Why"
        description={
          left === job.finishState
            ? 'It stays with the job; the car comes off the bench as it is.'
            : spell(
                `It stays with the job. The car comes off the bench as ${left}: by the steps that are done, its ${job.finishState} finish is gone.`,
              )
        }
        autosize
        minRows={2}
        maxLength={500}
        value={reason}
        error={asked && reason.trim() === '' ? 'Say why the job is given up.' : null}
        onChange={event => setReason(event.currentTarget.value)}
        data-autofocus
      />
      <div className={classes.formActions}>
        <Button variant="subtle" onClick={onClose}>
          Cancel
        </Button>
        <Button
          color="brick"
          variant="filled"
          loading={give.isPending}
          onClick={() => {
            setAsked(true);
            if (reason.trim() !== '') give.mutate();
          }}
        >
          Give up
        </Button>
      </div>
    </Modal>
  );
};

/** One job: its steps as a checklist, and what belongs to all of it. */
export const JobPanel = ({ job, jobs }: { job: JobView; jobs: readonly JobView[] }) => {
  const [, navigate] = useLocation();
  const over = isOver(job);
  const [cursor, setCursor] = useState<number | null>(() => stepAt(job)?.id ?? job.steps[0]?.id ?? null);
  const [givingUp, setGivingUp] = useState(false);
  const at = job.steps.findIndex(({ id }) => id === cursor);
  const step = job.steps[at];
  const { tick, clock, change } = useJobActions(job);
  const [together, setTogether] = useState<{ stepId: number; jobIds: readonly number[] } | null>(null);
  const sharers = step ? sharersOf(step, job, jobs) : [];
  const joined = step ? joinedOf(step, sharers, together?.stepId === step.id ? together.jobIds : []) : [];
  /** The steps of other cars that are done at once with this one; only the one at the cursor has any. */
  const alsoOf = (id: number) => (id === step?.id ? joined.map(other => other.step) : []);
  const runClock = (one: Step) => clock.mutate([one, ...alsoOf(one.id)]);
  const finish = () => navigate(`/finish/${job.carId}/${job.id}`);
  useEffect(() => {
    if (cursor !== null) document.getElementById(`step-${cursor}`)?.scrollIntoView({ block: 'nearest' });
  }, [cursor]);
  const go = (by: number) => {
    const next = job.steps[Math.max(0, Math.min(job.steps.length - 1, at + by))];
    if (next) setCursor(next.id);
  };
  /** Ticks a step and goes on to the next that is to do. */
  const tickAndGo = (id: number) => {
    const one = job.steps.find(other => other.id === id);
    if (!one || over) return;
    const state = one.state === 'to do' ? 'done' : 'to do';
    const also = state === 'done' ? alsoOf(id).map(other => other.id) : [];
    tick.mutate({ stepId: id, also, state });
    if (state !== 'done') return setCursor(id);
    const next = job.steps.find(
      other =>
        other.id !== id && other.state === 'to do' && job.steps.indexOf(other) > job.steps.indexOf(one),
    );
    setCursor(next?.id ?? id);
  };
  useKeys('Bench', [
    { keys: 'J', does: 'Next step', run: () => go(1) },
    { keys: 'K', does: 'Previous step', run: () => go(-1) },
    ...(over || !step
      ? []
      : [
          { keys: 'X', does: 'Mark the step as done, or undo that', run: () => tickAndGo(step.id) },
          { keys: 'T', does: 'Start or stop the clock of the step', run: () => runClock(step) },
          {
            keys: 'O',
            does: 'Leave the step out, or take it in again',
            run: () =>
              tick.mutate({ stepId: step.id, state: step.state === 'left out' ? 'to do' : 'left out' }),
          },
          { keys: 'F', does: 'Finish the job', run: finish },
        ]),
  ]);
  const seconds = job.steps.reduce((sum, one) => sum + one.seconds, 0);
  return (
    <section className={classes.job} aria-label={`Job on ${job.inventoryNumber}`}>
      <header className={classes.jobHead}>
        <div className={classes.jobName}>
          <h2>
            <Link href={`~/cars/${job.carId}`}>{job.inventoryNumber}</Link> {job.casting}
          </h2>
          <div className={classes.jobFacts}>
            <LacquerChip name={colourNow(job.features.colour, job.wornColour)} swatch={job.swatch} />
            {job.colour && !over ? (
              <span>
                to be painted <LacquerChip name={job.colour} swatch={job.paintSwatch} />
              </span>
            ) : null}
            <GradeBadge grade={job.grade} finishState={job.finishState} />
            {job.season ? <span>{job.season}</span> : null}
            <span>{timeText(seconds)} counted</span>
            {job.state === 'waiting' ? null : <span>{job.state}</span>}
          </div>
          {job.reason ? <p className={classes.soft}>Given up: {job.reason}</p> : null}
        </div>
        {over ? null : (
          <div className={classes.jobActions}>
            {job.state === 'paused' ? (
              <Button onClick={() => change.mutate('open')}>Resume</Button>
            ) : (
              <Button onClick={() => change.mutate('paused')}>Pause</Button>
            )}
            <Button variant="subtle" color="brick" onClick={() => setGivingUp(true)}>
              Give up…
            </Button>
            <Button variant="filled" rightSection={<KeyHint keys="F" />} onClick={finish}>
              Finish…
            </Button>
          </div>
        )}
      </header>
      <div className={classes.columns}>
        <ol className={classes.steps}>
          {job.steps.map(one => (
            <StepRow
              key={one.id}
              job={job}
              step={one}
              over={over}
              open={one.id === cursor}
              sharers={one.id === cursor ? sharers : []}
              joined={one.id === cursor ? joined : []}
              onTogether={jobIds => setTogether({ stepId: one.id, jobIds })}
              onOpen={() => setCursor(one.id)}
              onTick={() => tickAndGo(one.id)}
              onClock={() => runClock(one)}
              clockBusy={clock.isPending}
            >
              {one.step === lookStep ? <LookList job={job} disabled={over} /> : null}
            </StepRow>
          ))}
        </ol>
        <div className={classes.beside}>
          {job.steps.some(one => one.step === lookStep) ? null : <LookList job={job} disabled={over} />}
          <Uses job={job} disabled={over} />
          <JobNotes job={job} disabled={over} />
        </div>
      </div>
      {givingUp ? <GiveUp job={job} onClose={() => setGivingUp(false)} /> : null}
    </section>
  );
};

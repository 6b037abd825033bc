import { Button } from '@mantine/core';
import { IconCheck, IconMinus, IconPlayerPlay, IconPlayerStop } from '@tabler/icons-react';
import type { ReactNode } from 'react';
import type { JobView } from '../../../electron/api/views.ts';
import { workReasonText } from '../../../valuation/wording/work/work-text.ts';
import { readerLocale } from '../../components/format.ts';
import { readerWords } from '../../components/words.ts';
import classes from './bench.module.css';
import { RunningTime } from './clock.tsx';
import { momentText, plannedText, timeText } from './job-words.ts';
import { StepDetails } from './step-details.tsx';
import type { Sharer } from './together.ts';

type Step = JobView['steps'][number];

/** What is known of a step's time: how long it took, whether its clock runs, until when it waits. */
const StepTime = ({ step }: { step: Step }) => {
  const now = new Date();
  const waits =
    step.state === 'done' && step.waitsUntil !== null && Date.parse(step.waitsUntil) > now.getTime();
  return (
    <span className={classes.stepTime}>
      {step.runningSince === null ? null : <RunningTime since={step.runningSince} />}
      {step.seconds > 0 ? <span>{timeText(step.seconds)}</span> : null}
      {step.uncounted > 0 ? (
        <span className="caution">
          {step.uncounted} {step.uncounted === 1 ? 'session' : 'sessions'} not counted
        </span>
      ) : null}
      {waits && step.waitsUntil !== null ? <span>ready {momentText(step.waitsUntil, now)}</span> : null}
    </span>
  );
};

/**
 * A step of a job: a large box to tick, what it is and why, its clock; opened also its cautions, notes and
 * photographs.
 */
export const StepRow = ({
  job,
  step,
  over,
  open,
  sharers,
  joined,
  onTogether,
  onOpen,
  onTick,
  onClock,
  clockBusy,
  children,
}: {
  job: JobView;
  step: Step;
  /** The job is over, so that nothing is changed any more. */
  over: boolean;
  open: boolean;
  /** Other cars with this step to do, and those of them that are done at once with it. */
  sharers: readonly Sharer[];
  joined: readonly Sharer[];
  onTogether: (jobIds: readonly number[]) => void;
  onOpen: () => void;
  onTick: () => void;
  onClock: () => void;
  /** A start or stop of a clock is under way. */
  clockBusy: boolean;
  children?: ReactNode;
}) => {
  const runs = step.runningSince !== null;
  const { spell } = readerWords();
  const name = spell(step.name);
  return (
    <li
      id={`step-${step.id}`}
      className={classes.step}
      data-state={step.state}
      data-open={open || undefined}
      aria-current={open ? 'step' : undefined}
    >
      <div className={classes.stepHead}>
        <button
          type="button"
          className={classes.tick}
          aria-pressed={step.state === 'done' ? true : step.state === 'left out' ? 'mixed' : false}
          aria-label={`Done: ${name}`}
          disabled={over}
          onClick={onTick}
        >
          {step.state === 'done' ? <IconCheck aria-hidden="true" /> : null}
          {step.state === 'left out' ? <IconMinus aria-hidden="true" /> : null}
        </button>
        <button type="button" className={classes.stepName} aria-expanded={open} onClick={onOpen}>
          <span>
            {name}
            {step.state === 'left out' ? <span className={classes.soft}> left out</span> : null}
            {step.spoiled ? <span className="harm"> spoiled</span> : null}
          </span>
          <span className={classes.soft}>
            {[plannedText(step), step.why ? workReasonText(step.why, readerLocale()) : '']
              .filter(Boolean)
              .join(' · ')}
          </span>
        </button>
        <StepTime step={step} />
        {over || (step.state !== 'to do' && !runs) ? null : (
          <Button
            className={classes.clock}
            variant={runs ? 'filled' : 'default'}
            leftSection={runs ? <IconPlayerStop size={16} /> : <IconPlayerPlay size={16} />}
            aria-label={`${runs ? 'Stop' : 'Start'} the clock: ${name}`}
            loading={clockBusy}
            onClick={onClock}
          >
            {runs ? 'Stop' : 'Start'}
          </Button>
        )}
      </div>
      {open ? (
        <div className={classes.stepBody}>
          {children}
          <StepDetails
            key={step.id}
            job={job}
            step={step}
            over={over}
            sharers={sharers}
            joined={joined}
            onTogether={onTogether}
          />
        </div>
      ) : null}
    </li>
  );
};

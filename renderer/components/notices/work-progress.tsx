import { Button, Progress } from '@mantine/core';
import type { Work } from '../../api/use-progress.ts';
import classes from './notices.module.css';

/**
 * How far long work has come, with its cancel; or why it failed. Draws nothing before it starts and
 * once it is done.
 */
export const WorkProgress = <T,>({ work, label }: { work: Work<T>; label: string }) => {
  const { state } = work;
  if (state.is === 'failed')
    return (
      <p className="harm" role="alert">
        {state.sentence}
      </p>
    );
  if (state.is === 'cancelled') return <p className="soft">Stopped. Nothing was saved.</p>;
  if (state.is !== 'running') return null;
  const known = state.total > 0;
  const percent = known ? Math.min(100, (state.done / state.total) * 100) : 100;
  return (
    <div className={classes.work}>
      <div className={classes.workLine}>
        <span>
          {label}
          {state.stage ? ` · ${state.stage}` : ''}
          {state.quietFor === undefined ? '' : ` (no progress for ${state.quietFor} seconds)`}
        </span>
        <span className="tabular soft">
          {known ? `${state.done.toLocaleString()} of ${state.total.toLocaleString()}` : ''}
        </span>
        <Button variant="subtle" onClick={work.cancel}>
          Cancel
        </Button>
      </div>
      <Progress value={percent} animated={!known} size={4} aria-label={label} transitionDuration={100} />
    </div>
  );
};

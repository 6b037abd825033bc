import type { Standing } from '../season/season.ts';
import classes from './list.module.css';

const words: Record<Standing, string> = {
  in: 'in the season',
  must: 'must be in the season',
  never: 'excluded',
};

/** How it stands, for the label of its box, and what a press would do, for its tip. */
const told = (standing: Standing | null, onBench: boolean): { standing: string; tip: string } => {
  if (standing !== null) return { standing: words[standing], tip: words[standing] };
  return onBench
    ? {
        standing: 'on the bench, not in the season',
        tip: 'On the bench already, so the best set leaves it out. Add it to the season',
      }
    : { standing: 'not in the season', tip: 'Add it to the season' };
};

/** How a car stands to the season, as a box to tick: ✓ in, ✓ with a bar where it must be, ✕ kept out. */
export const StandingMark = ({
  standing,
  possible,
  onBench,
  car,
  onToggle,
}: {
  standing: Standing | null;
  /** False where there is not enough evidence to plan it in. */
  possible: boolean;
  /** It has a job that is not over. */
  onBench: boolean;
  car: string;
  onToggle: () => void;
}) =>
  possible ? (
    <button
      type="button"
      className={classes.standing}
      data-standing={standing ?? undefined}
      tabIndex={-1}
      aria-pressed={standing === 'in' || standing === 'must'}
      aria-label={`${car}: ${told(standing, onBench).standing}`}
      title={told(standing, onBench).tip}
      onClick={onToggle}
      onDoubleClick={event => event.stopPropagation()}
    >
      <span className={classes.box} aria-hidden="true">
        {standing === 'never' ? '✕' : standing ? '✓' : ''}
      </span>
      {standing === 'must' ? (
        <span className={classes.must} aria-hidden="true">
          must
        </span>
      ) : onBench ? (
        <span className={classes.bench} aria-hidden="true">
          bench
        </span>
      ) : null}
    </button>
  ) : null;

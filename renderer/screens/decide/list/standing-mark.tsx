import type { Standing } from '../season/season.ts';
import classes from './list.module.css';

const words: Record<Standing, string> = {
  in: 'in the season',
  must: 'must be in the season',
  never: 'excluded',
};

/** How a car stands to the season, as a box to tick: ✓ in, ✓ with a bar where it must be, ✕ kept out. */
export const StandingMark = ({
  standing,
  possible,
  car,
  onToggle,
}: {
  standing: Standing | null;
  /** False where there is not enough evidence to plan it in. */
  possible: boolean;
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
      aria-label={`${car}: ${standing ? words[standing] : 'not in the season'}`}
      title={standing ? words[standing] : 'Add it to the season'}
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
      ) : null}
    </button>
  ) : null;

import { type Grade, gradeLabel } from '../../../valuation/words.ts';
import classes from './marks.module.css';

/** A grade as "C7.5" over a short rule that fills with it; a car without one is plainly ungraded. */
export const GradeBadge = ({ grade }: { grade: Grade | null }) =>
  grade === null ? (
    <span className={classes.ungraded}>ungraded</span>
  ) : (
    <span className={classes.grade}>
      {gradeLabel(grade)}
      <span className={classes.rule} aria-hidden="true">
        <span className={classes.ruleFill} style={{ width: `${grade * 10}%` }} />
      </span>
    </span>
  );

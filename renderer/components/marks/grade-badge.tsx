import { carGradeLabel, conditionLabel, type FinishState, type Grade } from '../../../valuation/words.ts';
import { readerWords } from '../words.ts';
import classes from './marks.module.css';

/**
 * A car's grade, with its state where the factory finish is not whole, over a short rule that fills with it;
 * a car without one is plainly ungraded.
 */
export const GradeBadge = ({ grade, finishState }: { grade: Grade | null; finishState: FinishState }) =>
  grade === null ? (
    <span className={classes.ungraded}>{readerWords().spell(conditionLabel(null, finishState))}</span>
  ) : (
    <span className={classes.grade}>
      {readerWords().spell(carGradeLabel(grade, finishState))}
      <span className={classes.rule} aria-hidden="true">
        <span className={classes.ruleFill} style={{ width: `${grade * 10}%` }} />
      </span>
    </span>
  );

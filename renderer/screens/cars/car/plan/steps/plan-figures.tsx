import type { CarPlanView } from '../../../../../../electron/api/views.ts';
import type { Currency, PlanWishes } from '../../../../../../valuation/types.ts';
import { closureText, gradesText, heldDownText } from '../../../../../../valuation/wording/work/work-text.ts';
import {
  type Closure,
  closures,
  type FinishState,
  finishAfter,
  gradeLabel,
  grades,
} from '../../../../../../valuation/words.ts';
import { AmountDelta } from '../../../../../components/amounts/amount.tsx';
import { percentText } from '../../../../../components/format.ts';
import { useWords } from '../../../../../components/words.ts';
import planClasses from '../plan.module.css';
import classes from './steps.module.css';
import { CostText, hoursText } from './three-text.tsx';

/** What the plan takes and brings, in one row of figures. */
export const PlanFigures = ({
  view,
  before,
  currency,
}: {
  view: CarPlanView;
  /** The finish that the car has now. */
  before: FinishState;
  currency: Currency;
}) => {
  const words = useWords();
  const { plan, outcome, kind } = view;
  const paints = kind === 'restore' || kind === 'customise';
  const after = finishAfter(kind, before);
  const held = heldDownText(plan, words.locale);
  return (
    <dl className={classes.figures}>
      <div>
        <dt>Your hours, low–likely–high</dt>
        <dd>{hoursText(plan.hours)}</dd>
      </div>
      <div>
        <dt>Runs by itself</dt>
        <dd>{hoursText(plan.waiting)}</dd>
      </div>
      <div>
        <dt>Materials and parts</dt>
        <dd>
          <CostText cost={plan.cost} currency={currency} />
        </dd>
      </div>
      {paints ? (
        <div className={classes.grades}>
          <dt>Can end in{after === 'original' ? '' : `, ${words.spell(after)}`}</dt>
          <dd>
            <span className={classes.bars} aria-hidden="true">
              {plan.grades.map(({ grade, share }) => (
                <span key={grade} className={classes.bar} style={{ flexGrow: share }}>
                  {gradeLabel(grade)}
                </span>
              ))}
            </span>
            <span className="heard">{gradesText(plan, before, words.locale)}</span>
            <span className="soft" aria-hidden="true">
              {plan.grades
                .map(({ grade, share }) => `${gradeLabel(grade)} ${percentText(share)}`)
                .join(' · ')}
            </span>
            {held ? <span className={classes.held}>{held}</span> : null}
          </dd>
        </div>
      ) : null}
      <div>
        <dt>Chance of spoiling it</dt>
        <dd>{percentText(plan.spoilChance)}</dd>
      </div>
      {outcome ? (
        <>
          <div>
            <dt>Gain expected</dt>
            <dd>
              <AmountDelta minor={outcome.expectedGain} currency={currency} />{' '}
              <span className="soft">
                beats leaving in {Math.round(outcome.probability * 100)} of 100 cases
              </span>
            </dd>
          </div>
          <div>
            <dt>For each of your hours</dt>
            <dd>
              <AmountDelta minor={outcome.gainPerHour} currency={currency} />
            </dd>
          </div>
        </>
      ) : null}
    </dl>
  );
};

/** What is aimed at and how it is closed again. */
export const PlanAims = ({
  view,
  wishes,
  onChange,
}: {
  view: CarPlanView;
  wishes: PlanWishes;
  onChange: (wishes: PlanWishes) => void;
}) => (
  <div className={planClasses.measures}>
    <label>
      Grade aimed at
      <select
        className={planClasses.cell}
        value={view.plan.aim}
        onChange={event => onChange({ ...wishes, aim: Number(event.currentTarget.value) })}
      >
        {grades.toReversed().map(grade => (
          <option key={grade} value={grade}>
            {gradeLabel(grade)}
          </option>
        ))}
      </select>
    </label>
    <label>
      Closed again
      <select
        className={planClasses.cell}
        value={view.plan.closure ?? 'screw'}
        onChange={event => onChange({ ...wishes, closure: event.currentTarget.value as Closure })}
      >
        {closures.map(closure => (
          <option key={closure} value={closure}>
            {closureText(closure)}
          </option>
        ))}
      </select>
    </label>
  </div>
);

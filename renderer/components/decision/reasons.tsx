import type { Currency, Decision } from '../../../valuation/types.ts';
import { guardText } from '../../../valuation/wording/values/guard-text.ts';
import { reasonText } from '../../../valuation/wording/values/reason-text.ts';
import { useWords } from '../words.ts';
import classes from './decision.module.css';
import { breakEvenReason, guardsOf, otherReasons } from './decision-parts.ts';

/** The price and the cost at which the plan begins to pay, or stops; nothing where no plan can be weighed. */
export const BreakEven = ({
  decision,
  currency,
}: {
  decision: Pick<Decision, 'reasons'>;
  currency: Currency;
}) => {
  const { reader } = useWords();
  const reason = breakEvenReason(decision);
  return reason === undefined ? null : <p className={classes.even}>{reasonText(reason, reader(currency))}</p>;
};

/** What stands against painting the car, and what of it the owner overruled. */
export const Guards = ({ decision }: { decision: Pick<Decision, 'options'> }) => {
  const guards = guardsOf(decision);
  if (guards.length === 0) return null;
  return (
    <ul className={classes.guards} aria-label="Against painting it">
      {guards.map(guard => (
        <li key={guard.kind} data-overruled={guard.overruled || undefined}>
          <span className={classes.guardWord}>{guard.overruled ? 'overruled' : 'keep'}</span>
          {guardText(guard)}
        </li>
      ))}
    </ul>
  );
};

/** Why it is recommended, the weightiest first; the break-even and the guards are shown apart. */
export const Reasons = ({
  decision,
  currency,
}: {
  decision: Pick<Decision, 'reasons'>;
  currency: Currency;
}) => {
  const { reader } = useWords();
  return (
    <ul className={classes.reasons}>
      {otherReasons(decision).map((reason, place) => (
        <li key={place}>{reasonText(reason, reader(currency))}</li>
      ))}
    </ul>
  );
};

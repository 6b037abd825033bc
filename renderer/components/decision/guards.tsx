import type { Decision } from '../../../valuation/types.ts';
import classes from './decision.module.css';
import { guardsOf } from './guards-against.ts';

/** What stands against painting the car, and what of it the owner overruled. */
export const Guards = ({ decision }: { decision: Pick<Decision, 'options'> }) => {
  const guards = guardsOf(decision);
  if (guards.length === 0) return null;
  return (
    <ul className={classes.guards} aria-label="Against painting it">
      {guards.map(guard => (
        <li key={guard.kind} data-overruled={guard.overruled || undefined}>
          <span className={classes.guardWord}>{guard.overruled ? 'overruled' : 'keep'}</span>
          {guard.sentence}
        </li>
      ))}
    </ul>
  );
};

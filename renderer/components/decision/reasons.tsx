import type { Decision } from '../../../valuation/types.ts';
import classes from './decision.module.css';
import { otherReasons } from './split-reasons.ts';

/** Why it is recommended, the weightiest first; `more` are sentences that belong with them, each said once. */
export const Reasons = ({
  decision,
  more = [],
}: {
  decision: Pick<Decision, 'reasons' | 'options'>;
  more?: readonly string[];
}) => (
  <ul className={classes.reasons}>
    {[...new Set([...otherReasons(decision), ...more])].map(reason => (
      <li key={reason}>{reason}</li>
    ))}
  </ul>
);

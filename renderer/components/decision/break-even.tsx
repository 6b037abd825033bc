import type { Decision } from '../../../valuation/types.ts';
import classes from './decision.module.css';
import { evenSentence } from './split-reasons.ts';

/** The worth and the cost at which the plan begins to pay, or stops; nothing where no plan can be weighed. */
export const BreakEven = ({ decision }: { decision: Pick<Decision, 'reasons'> }) => {
  const sentence = evenSentence(decision.reasons);
  return sentence === undefined ? null : <p className={classes.even}>{sentence}</p>;
};

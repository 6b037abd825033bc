import { Link } from 'wouter';
import { HelpfulAnswers } from '../../components/evidence/helpful-answers.tsx';
import classes from './decide.module.css';

/** What would help where no car can be weighed yet: the answers that give the most cars a value. */
export const NoEvidence = () => (
  <section className={classes.noEvidence} aria-label="What would help">
    <h2>There is not enough evidence to weigh these cars</h2>
    <p className="soft">
      No figure is made up in its place. Once something is known of the prices of such cars, each gets its
      values, its options and a recommendation. Any of these would help, the first the most:
    </p>
    <HelpfulAnswers />
    <p className={classes.helpLinks}>
      <Link className={classes.primary} href="~/sales/paste">
        Paste sales
      </Link>
      <Link className={classes.secondary} href="~/settings?part=beliefs">
        Say what you believe
      </Link>
      <Link href="~/how-values-are-estimated">How values are estimated</Link>
    </p>
  </section>
);

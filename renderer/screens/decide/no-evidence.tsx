import { Link } from 'wouter';
import type { DecisionSummary } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { turningText } from '../../../valuation/wording/reason-text.ts';
import { readerWords } from '../../components/words.ts';
import classes from './decide.module.css';

/** What would help where no car can be weighed yet: each sentence once, with how many cars it would help. */
export const NoEvidence = ({ cars, currency }: { cars: readonly DecisionSummary[]; currency: Currency }) => {
  const counts = new Map<string, number>();
  for (const { turnsOn } of cars) {
    const why = turningText(turnsOn, readerWords().reader(currency));
    counts.set(why, (counts.get(why) ?? 0) + 1);
  }
  const sentences = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 5);
  return (
    <section className={classes.noEvidence} aria-label="What would help">
      <h2>There is not enough evidence to weigh these cars</h2>
      <p className="soft">
        No figure is made up in its place. With some sale records of the same castings, each car gets its
        values, its options and a recommendation. This would help:
      </p>
      <ul>
        {sentences.map(([sentence, count]) => (
          <li key={sentence}>
            {sentence} <span className="soft">{count === 1 ? '1 car' : `${count} cars`}</span>
          </li>
        ))}
      </ul>
      <p className={classes.helpLinks}>
        <Link className={classes.primary} href="~/sales">
          Enter sale records
        </Link>
        <Link className={classes.secondary} href="~/lots/import">
          Import them from a spreadsheet
        </Link>
        <Link href="~/how-values-are-estimated">How values are estimated</Link>
      </p>
    </section>
  );
};

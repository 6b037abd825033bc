import type { Evidence } from '../../../../valuation/types.ts';
import { percentText } from '../../../components/format.ts';
import classes from '../method.module.css';
import { sharesOf } from './shares-of.ts';

/** How much of the estimate rests on what, as one bar and in words. */
export const Shares = ({ evidence }: { evidence: Evidence }) => {
  const shares = sharesOf(evidence);
  return (
    <>
      <div className={classes.shares} aria-hidden="true">
        {shares.map(({ level, share }) => (
          <span key={level} data-level={level} style={{ flexGrow: share }} />
        ))}
      </div>
      <ul className={classes.shareWords}>
        {shares.map(({ level, share, words }) => (
          <li key={level}>
            <span className={classes.shareMark} data-level={level} aria-hidden="true" />
            <strong>{percentText(share)}</strong> {words}
          </li>
        ))}
      </ul>
      <p className={classes.exampleText}>
        {evidence.sales === 0
          ? 'This variation was never seen sold: its casting’s level is used instead, times the factor for its rarity.'
          : 'More sales of this very variation would raise its own share; sales that disagree among themselves, or are old, keep it low.'}
      </p>
    </>
  );
};

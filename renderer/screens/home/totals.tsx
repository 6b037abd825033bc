import { Link } from 'wouter';
import type { HomeView } from '../../../electron/api/views.ts';
import { ownCountsText } from '../../../valuation/wording/values/evidence-text.ts';
import { ChangingAmount } from '../../components/amounts/amount.tsx';
import { worthText } from '../../components/format.ts';
import classes from './home.module.css';

/** What the cars that are still here are worth together, in one line of figures. */
export const Totals = ({ totals }: { totals: HomeView['totals'] }) => {
  const { asFound, onOwn, cars, valued, cost, currency } = totals;
  const missing = cars - valued;
  const own = ownCountsText(onOwn);
  return (
    <dl className={classes.totals}>
      <div>
        <dt>Value as found</dt>
        <dd className={classes.total}>
          <ChangingAmount minor={asFound.mid} currency={currency} estimate />
        </dd>
        <dd className={classes.under}>
          expected in all; {worthText(asFound.low, currency)} to {worthText(asFound.high, currency)}, 80 %
          range
        </dd>
      </div>
      <div>
        <dt>Paid, including work</dt>
        <dd className={classes.figure}>
          <ChangingAmount minor={cost} currency={currency} estimate />
        </dd>
        <dd className={classes.under}>for the {cars} cars still here</dd>
      </div>
      <div>
        <dt>With a value</dt>
        <dd className={classes.figure}>
          {valued} <span className={classes.of}>of {cars}</span>
        </dd>
        <dd className={classes.under}>
          {missing === 0 ? (
            'every car has enough evidence'
          ) : (
            <>
              {missing} not in the total: not enough evidence ·{' '}
              <Link href="~/how-values-are-estimated">why</Link>
            </>
          )}
        </dd>
        {own === '' ? null : (
          <dd className={classes.under}>
            {own} · <Link href="~/how-values-are-estimated">how</Link>
          </dd>
        )}
      </div>
    </dl>
  );
};

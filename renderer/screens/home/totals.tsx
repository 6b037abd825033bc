import { Link } from 'wouter';
import type { HomeView } from '../../../electron/api/views.ts';
import { ChangingAmount } from '../../components/amounts/amount.tsx';
import { worthText } from '../../components/format.ts';
import classes from './home.module.css';

/** What the cars that are still here are worth together, in one line of figures. */
export const Totals = ({ totals }: { totals: HomeView['totals'] }) => {
  const { asFound, cars, valued, cost, currency } = totals;
  const missing = cars - valued;
  return (
    <dl className={classes.totals}>
      <div>
        <dt>Worth as found</dt>
        <dd className={classes.total}>
          <ChangingAmount minor={asFound.mid} currency={currency} estimate />
        </dd>
        <dd className={classes.under}>
          {worthText(asFound.low, currency)} to {worthText(asFound.high, currency)}, four times in five
        </dd>
      </div>
      <div>
        <dt>Paid, work included</dt>
        <dd className={classes.figure}>
          <ChangingAmount minor={cost} currency={currency} estimate />
        </dd>
        <dd className={classes.under}>for the {cars} cars still here</dd>
      </div>
      <div>
        <dt>With a worth</dt>
        <dd className={classes.figure}>
          {valued} <span className={classes.of}>of {cars}</span>
        </dd>
        <dd className={classes.under}>
          {missing === 0 ? (
            'every car has its evidence'
          ) : (
            <>
              {missing} not in the sum, for want of evidence ·{' '}
              <Link href="~/how-worth-is-estimated">why</Link>
            </>
          )}
        </dd>
      </div>
    </dl>
  );
};

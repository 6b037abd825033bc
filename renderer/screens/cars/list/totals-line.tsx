import type { CarRow } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { amountText, deltaText, readerLocale, worthText } from '../../../components/format.ts';
import classes from './list.module.css';
import { totalsOf } from './totals.ts';

/** What the cars in view come to, in one line at the foot. */
export const TotalsLine = ({ cars, currency }: { cars: readonly CarRow[]; currency: Currency }) => {
  const totals = totalsOf(cars);
  const sold = totals.cars - totals.here;
  return (
    <div className={classes.totals} role="status" aria-label="Totals of the cars shown">
      <span>
        <strong>{totals.cars.toLocaleString(readerLocale())}</strong> {totals.cars === 1 ? 'car' : 'cars'}
        {sold > 0 ? `, ${sold} of them sold` : ''}
      </span>
      <span>
        value as found <strong>{worthText(totals.asFound, currency)}</strong> {currency}
        {totals.valued < totals.here ? ` for ${totals.valued} of ${totals.here}` : ''}
      </span>
      <span>
        cost{' '}
        <strong>
          {totals.costs.length === 0
            ? '–'
            : totals.costs.map(sum => `${amountText(sum.minor, sum.currency)} ${sum.currency}`).join(' + ')}
        </strong>
        {totals.withoutCost > 0 && totals.costs.length > 0 ? `, ${totals.withoutCost} without` : ''}
      </span>
      {totals.gaining > 0 ? (
        <span>
          gain if you follow every recommendation <strong>{deltaText(totals.gain, currency)}</strong> on{' '}
          {totals.gaining}
        </span>
      ) : null}
    </div>
  );
};

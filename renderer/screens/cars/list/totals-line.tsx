import type { CarTotals } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { amountText, deltaText, readerLocale, worthText } from '../../../components/format.ts';
import classes from './list.module.css';

const label = 'Totals of the cars shown';

/** What the cars in view come to, in one line at the foot. */
export const TotalsLine = ({
  totals,
  currency,
  isOld,
}: {
  totals: CarTotals | undefined;
  currency: Currency;
  /** They are still those of the filter before. */
  isOld: boolean;
}) => {
  if (!totals) return <div className={classes.totals} role="status" aria-label={label} aria-busy="true" />;
  const sold = totals.cars - totals.here - totals.seen;
  return (
    <div className={classes.totals} role="status" aria-label={label} aria-busy={isOld || undefined}>
      <span>
        <strong>{totals.cars.toLocaleString(readerLocale())}</strong> {totals.cars === 1 ? 'car' : 'cars'}
        {sold > 0 ? `, ${sold.toLocaleString(readerLocale())} of them sold` : ''}
        {totals.seen > 0 ? `, ${totals.seen.toLocaleString(readerLocale())} seen, not bought` : ''}
      </span>
      <span>
        value as found <strong>{worthText(totals.asFound, currency)}</strong> {currency}
        {totals.valued < totals.here
          ? ` for ${totals.valued.toLocaleString(readerLocale())} of ${totals.here.toLocaleString(readerLocale())}`
          : ''}
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

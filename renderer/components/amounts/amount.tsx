import type { Currency, Minor, Range } from '../../../valuation/types.ts';
import { amountText, deltaText, worthText } from '../format.ts';
import classes from './amounts.module.css';
import { useChange } from './use-change.ts';

interface AmountProps {
  minor: Minor | null;
  currency: Currency;
  /** An estimate is rounded to what it deserves; a price paid or got shows all its decimals. */
  estimate?: boolean;
}

/** A number of money without its currency, which stands once in the heading. */
export const Amount = ({ minor, currency, estimate = false }: AmountProps) => (
  <span className={minor === null ? classes.none : classes.amount}>
    {minor === null ? '–' : estimate ? worthText(minor, currency) : amountText(minor, currency)}
  </span>
);

/** An amount that, when it changes, says once by how much, in place. */
export const ChangingAmount = ({ minor, currency, estimate = false }: AmountProps) => {
  const change = useChange(minor);
  return (
    <span className={classes.changing}>
      <Amount minor={minor} currency={currency} estimate={estimate} />
      {change ? (
        <span key={change.turn} className={classes.change} data-sign={Math.sign(change.by)} role="status">
          {deltaText(change.by, currency)}
        </span>
      ) : null}
    </span>
  );
};

/** A gain or loss with its sign; a loss is told by its sign and word, not by colour alone. */
export const AmountDelta = ({ minor, currency }: { minor: Minor | null; currency: Currency }) =>
  minor === null ? (
    <span className={classes.none}>–</span>
  ) : (
    <span className={classes.delta} data-sign={Math.sign(minor)}>
      {deltaText(minor, currency)}
    </span>
  );

/** A range as low – mid – high, the middle in weight: "40 – 60 – 90". */
export const RangeText = ({ range, currency }: { range: Range | null; currency: Currency }) =>
  range ? (
    <span className={classes.range}>
      <span className={classes.bound}>{worthText(range.low, currency)}</span>
      <span className={classes.dash}>–</span>
      <span className={classes.middle}>{worthText(range.mid, currency)}</span>
      <span className={classes.dash}>–</span>
      <span className={classes.bound}>{worthText(range.high, currency)}</span>
    </span>
  ) : (
    <span className={classes.lacking}>not enough evidence</span>
  );

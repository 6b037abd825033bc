import type { Currency } from '../../../../valuation/types.ts';
import { adjustmentText } from '../../../../valuation/wording/values/record-text.ts';
import { amountText, dateText, readerLocale, worthText } from '../../../components/format.ts';
import classes from '../method.module.css';
import { factorText, type WorkedCar } from './worked.ts';

/** One sale's way to the car: what it brought, each factor with its reason, and what it comes to. */
export const Ledger = ({
  record,
  currency,
}: {
  record: WorkedCar['records'][number];
  currency: Currency;
}) => {
  let standing = record.price;
  return (
    <table className={classes.ledger}>
      <tbody>
        <tr>
          <th scope="row">Sold on {dateText(record.soldOn)}</th>
          <td />
          <td className="amount">
            {amountText(record.price, record.currency)}
            {record.currency === currency ? '' : ` ${record.currency}`}
          </td>
        </tr>
        {record.adjustments.map((line, place) => {
          standing *= line.factor;
          return (
            <tr key={place}>
              <th scope="row">{adjustmentText(line.cause, readerLocale())}</th>
              <td className="amount">{factorText(line.factor)}</td>
              <td className="amount soft">{amountText(Math.round(standing), currency)}</td>
            </tr>
          );
        })}
        <tr className={classes.outcome}>
          <th scope="row">Suggests for this car</th>
          <td />
          <td className="amount">
            {worthText(record.adjusted, currency)} {currency}
          </td>
        </tr>
      </tbody>
    </table>
  );
};

import { Link } from 'wouter';
import { adjustmentText } from '../../../../valuation/wording/values/record-text.ts';
import { conditionLabel } from '../../../../valuation/words.ts';
import { amountText, dateText, percentText, readerLocale, worthText } from '../../../components/format.ts';
import { readerWords } from '../../../components/words.ts';
import classes from '../method.module.css';
import { factorText, kindsOf, together, type WorkedCar } from './worked.ts';

const maxRecords = 8;

/**
 * The adjustment grid: a line for each of the weightiest sales, from its price to what it says of this car.
 */
export const AdjustmentGrid = ({ car }: { car: WorkedCar }) => {
  const records = car.records.slice(0, maxRecords);
  const rest = car.records.slice(maxRecords);
  const kinds = kindsOf(records);
  const restWeight = rest.reduce((sum, { weight }) => sum + weight, 0);
  return (
    <div className={classes.gridFrame}>
      <table className={classes.grid}>
        <thead>
          <tr>
            <th scope="col">Sold on</th>
            <th scope="col">What</th>
            <th scope="col">Condition</th>
            <th scope="col" className="amount">
              Price
            </th>
            {kinds.map(kind => (
              <th key={kind} scope="col" className="amount">
                {kind}
              </th>
            ))}
            <th scope="col" className="amount">
              Suggests, {car.currency}
            </th>
            <th scope="col" className="amount">
              Weight
            </th>
          </tr>
        </thead>
        <tbody>
          {records.map(record => (
            <tr key={record.id}>
              <td>
                {car.id === null ? (
                  dateText(record.soldOn)
                ) : (
                  <Link href={`~/sales?record=${record.id}`}>{dateText(record.soldOn)}</Link>
                )}
              </td>
              <td className={classes.what} title={record.variation}>
                {record.variation || 'variation not given'}
              </td>
              <td>{readerWords().spell(conditionLabel(record.grade, record.finishState))}</td>
              <td className="amount">
                {amountText(record.price, record.currency)}
                {record.currency === car.currency ? '' : ` ${record.currency}`}
              </td>
              {kinds.map(kind => {
                const line = together(record.adjustments, kind);
                return (
                  <td
                    key={kind}
                    className="amount"
                    title={line?.causes.map(cause => adjustmentText(cause, readerLocale())).join('; ')}
                  >
                    {line ? factorText(line.factor) : <span className="soft">–</span>}
                  </td>
                );
              })}
              <td className="amount">
                <strong>{worthText(record.adjusted, car.currency)}</strong>
              </td>
              <td className="amount">
                <span className={classes.weight} aria-hidden="true">
                  <span style={{ width: `${record.weight * 100}%` }} />
                </span>
                {percentText(record.weight)}
              </td>
            </tr>
          ))}
        </tbody>
        {rest.length > 0 ? (
          <tfoot>
            <tr>
              <td colSpan={5 + kinds.length}>
                and {rest.length === 1 ? 'one other sale' : `${rest.length} others, less closely related`}
              </td>
              <td className="amount">{percentText(restWeight)}</td>
            </tr>
          </tfoot>
        ) : null}
      </table>
    </div>
  );
};

import { Link } from 'wouter';
import type { Currency } from '../../../../valuation/types.ts';
import { dateText, worthText } from '../../../components/format.ts';
import classes from '../settings.module.css';
import { isInside, type PastPair, pairScale, signedPercent } from './pair-scale.ts';

const Strip = ({ pair, place }: { pair: PastPair; place: (minor: number) => number }) => {
  const at = (minor: number) => `${place(minor) * 100}%`;
  return (
    <svg className={classes.pairStrip} width="100%" height="16" aria-hidden="true">
      <line x1={at(pair.low)} x2={at(pair.high)} y1="8" y2="8" className={classes.pairRange} />
      <line x1={at(pair.mid)} x2={at(pair.mid)} y1="3" y2="13" className={classes.pairMid} />
      <circle
        cx={at(pair.realised)}
        cy="8"
        r="4.5"
        className={isInside(pair) ? classes.pairInside : classes.pairOutside}
      />
    </svg>
  );
};

/** Every sale of a car that had been valued: the range it was given, and where the price fell. */
export const PastPairs = ({ pairs, currency }: { pairs: readonly PastPair[]; currency: Currency }) => {
  const place = pairScale(pairs);
  const ordered = pairs.toSorted((a, b) => b.soldOn.localeCompare(a.soldOn));
  return (
    <div className="sideways">
      <table className={classes.table}>
        <thead>
          <tr>
            <th scope="col">Car</th>
            <th scope="col">Valued</th>
            <th scope="col">Sold</th>
            <th scope="col" className={classes.pairCell}>
              Range and sale price
            </th>
            <th scope="col" className="amount">
              Low – mid – high
            </th>
            <th scope="col" className="amount">
              Sold for
            </th>
            <th scope="col" className="amount">
              Compared with estimate
            </th>
          </tr>
        </thead>
        <tbody>
          {ordered.map(pair => (
            <tr key={`${pair.carId} ${pair.soldOn}`}>
              <th scope="row">
                <Link href={`~/cars/${pair.carId}`}>{pair.inventoryNumber}</Link>
              </th>
              <td className="soft">{dateText(pair.valuedOn)}</td>
              <td>{dateText(pair.soldOn)}</td>
              <td className={classes.pairCell}>
                <Strip pair={pair} place={place} />
              </td>
              <td className="amount soft">
                {worthText(pair.low, currency)} – {worthText(pair.mid, currency)} –{' '}
                {worthText(pair.high, currency)}
              </td>
              <td className="amount">{worthText(pair.realised, currency)}</td>
              <td className="amount">
                {signedPercent(pair.realised / pair.mid - 1)}
                {isInside(pair) ? null : <span className="caution"> outside</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
};

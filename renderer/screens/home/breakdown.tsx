import { useState } from 'react';
import type { Currency, Minor } from '../../../valuation/types.ts';
import { Amount } from '../../components/amounts/amount.tsx';
import { LacquerChip } from '../../components/lacquer-chip/lacquer-chip.tsx';
import classes from './home.module.css';

interface BreakdownRow {
  name: string;
  cars: number;
  /** Null where none of the cars has a value. */
  worth: Minor | null;
  swatch?: string | null;
}

const shown = 8;

/** Groups of cars with their worth as a bar against the greatest; the small ones open on request. */
export const Breakdown = ({
  rows,
  currency,
  chips = false,
}: {
  rows: BreakdownRow[];
  currency: Currency;
  chips?: boolean;
}) => {
  const [all, setAll] = useState(false);
  const most = Math.max(1, ...rows.map(row => row.worth ?? 0));
  const visible = all ? rows : rows.slice(0, shown);
  return (
    <>
      <table className={classes.breakdown}>
        <thead className="heard">
          <tr>
            <th scope="col">Group</th>
            <th scope="col">Cars</th>
            <th scope="col">Value as found</th>
          </tr>
        </thead>
        <tbody>
          {visible.map(row => (
            <tr key={row.name}>
              <th scope="row">
                {chips ? <LacquerChip name={row.name} swatch={row.swatch ?? null} basePaint="" /> : row.name}
              </th>
              <td className={classes.cars}>{row.cars}</td>
              <td className={classes.bar}>
                <span style={{ width: `${(100 * (row.worth ?? 0)) / most}%` }} />
              </td>
              <td className="amount">
                <Amount minor={row.worth} currency={currency} estimate />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length > shown ? (
        <button type="button" className={classes.more} onClick={() => setAll(!all)}>
          {all ? 'Show fewer' : `Show ${rows.length - shown} more`}
        </button>
      ) : null}
    </>
  );
};

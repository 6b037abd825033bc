import type { Cell, Reading } from '../../../valuation/reading/reading.ts';
import type { readStatus } from '../../../valuation/reading/words.ts';
import { saysNo, saysYes } from '../../../valuation/reading/yes-no.ts';
import type { Judged, RowReader } from './judge.ts';

type Status = Extract<ReturnType<typeof readStatus>, { ok: true }>['value'];

/** How shops and lists of orders say that something came, or is on its way. Common practice, no source. */
const isBought =
  /^(?:bought|paid|complete|completed|delivered|received|arrived|dispatched|shipped|posted|sent|in transit|on its way|won|owned|(?:in|in my) collection|keep|keeping|keeper|mine)$/i;
/** How they say that it is not the owner's, or not any longer. Common practice, no source. */
const isGone =
  /^(?:sold|sold on|gone|cancell?ed|cancelled order|order cancell?ed|refunded|returned|sent back|not received|never arrived|lost in (?:the )?post|not paid|unpaid|lost|outbid|not won|withdrawn|stolen|traded|traded away|swapped|swapped away|given away|wanted|want|wish|wish list|wishlist|wanted list|verkauft|vendue?|venduto|vendido|verkocht|storniert|erstattet)$/i;
const noneOfIt = /^0+(?:[.,]0+)?$/;
/** Of a place without a car, in a list of places. Common practice, no source. */
const emptyPlace =
  /^[([]?(?:empty|vacant|free|available|nothing|no car|leer|frei|vide|leeg|vac[ií]o|libre|vuoto)[)\]]?[.!]?$|^[([]?reserved (?:for|:)/i;

/** Refuses a row of which the list itself says that its owner does not have the car; null for all others. */
export const notTheirs = (row: RowReader): Judged | null => {
  const owned = row.habits.mapping.places.has('is_owned') ? row.text('is_owned') : null;
  if (owned !== null && (owned === '' || saysNo(owned) || noneOfIt.test(owned)))
    return {
      outcome: 'rejected',
      column: 'is_owned',
      reason:
        owned === ''
          ? `"${row.heading('is_owned')}" is blank, so the car is not taken as yours; write yes there if it is`
          : `"${row.heading('is_owned')}" says "${owned}", so the car is not taken as yours`,
      not: 'not yours',
    };
  const name = row.text('casting');
  if (/^[\p{L} ]+:$/u.test(name))
    return {
      outcome: 'rejected',
      column: 'casting',
      reason: `"${name}" says what the next cells are, and names no car`,
      not: 'a sub-heading',
    };
  if (emptyPlace.test(name))
    return {
      outcome: 'rejected',
      column: 'casting',
      reason: `"${name.slice(0, 100)}" is a place without a car`,
      not: 'no car',
    };
  if (noneOfIt.test(row.text('quantity')))
    return {
      outcome: 'rejected',
      column: 'quantity',
      reason: `the list has ${row.text('quantity')} of it`,
      not: 'not yours',
    };
  return null;
};

/**
 * The status of a row's car. One that is not its owner's any longer, or never was, waits to be settled, unless the
 * row has a sale of it.
 */
export const takeStatus = (row: RowReader, statusOf: (cell: Cell) => Reading<Status>): Status => {
  const text = row.text('status');
  // Our own lists tell of sales in one of their own.
  const { isOurs } = row.habits.mapping;
  const hasSale = row.has('sold_on') || row.has('sold_for');
  if (isBought.test(text) || (hasSale && isGone.test(text))) row.replace('status', 'kept');
  else if (isGone.test(text) && !isOurs) {
    row.ask(
      'status',
      `"${text}" says that the car is not yours, or not any longer: give the day of its sale and what it brought, or say what "${text}" means`,
    );
    return 'kept';
  }
  if (!hasSale && saysYes(row.text('was_sold')))
    row.refuse('was_sold', 'the car was sold: give the day of its sale and what it brought');
  return row.take('status', statusOf) ?? 'kept';
};

const wasUnsold =
  /^(?:un-?sold|not sold|no sale|passed|bought in|withdrawn|no bids?|reserve not (?:met|reached)|did not sell|nicht verkauft|r[uü]ckgang|invendu|n[aã]o vendido|no vendido|invenduto|onverkocht)\W*$/i;

/** Refuses a row of which the list of sales says itself that nothing was sold; null for all others. */
export const notSold = (row: RowReader): Judged | null => {
  const [sold, price] = [row.text('was_sold'), row.text('price')];
  const column = saysNo(sold) || noneOfIt.test(sold) ? 'was_sold' : wasUnsold.test(price) ? 'price' : null;
  return (
    column && {
      outcome: 'rejected',
      column,
      reason: `"${row.heading(column)}" says "${row.text(column)}": it was not sold`,
      not: 'not sold',
    }
  );
};

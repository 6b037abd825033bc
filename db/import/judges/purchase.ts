import { isCurrency } from '../../../valuation/money.ts';
import {
  currencyOfEstimate,
  inUnits,
  type PaidAmount,
  partOf,
  readEstimate,
  readPaid,
  signOfPaid,
} from '../../../valuation/reading/amounts.ts';
import { currenciesOfHeading, currencyNamed } from '../../../valuation/reading/currency.ts';
import { readDate } from '../../../valuation/reading/date.ts';
import { type Cell, isAmountCell, notUnderstood, type Reading } from '../../../valuation/reading/reading.ts';
import type { Currency, IsoDate, Minor, Range } from '../../../valuation/types.ts';
import type { Habits, RowReader } from './judge.ts';
import { remembered } from './remembered.ts';

/** What a row says of how its cars were bought. */
export interface Purchase {
  boughtOn: IsoDate | null;
  seller: string;
  paid: { minor: Minor; currency: Currency } | null;
}

/** What a row says of how its car was sold. */
export interface SoldFor {
  soldOn: IsoDate;
  proceeds: Minor;
  currency: Currency;
}

export interface MoneyOfRow {
  /** `paid` is for all cars of the row together. */
  purchase: Purchase;
  ownWorth: Range | null;
  sold: SoldFor | null;
}

interface Terms {
  /** Of what was paid and brought, where an amount names none. */
  currency: Currency;
  /** Of the owner's own estimates. */
  reporting: Currency;
  /** ISO date; nothing was bought or sold after it. */
  today: IsoDate;
}

/** What one of a row's cars cost: an equal part of what was paid for all, to the minor unit. */
export const partPaid = (paid: Purchase['paid'], quantity: number, at: number): Purchase['paid'] =>
  paid && { ...paid, minor: partOf(paid.minor, quantity, at) };

const unknownCurrency = (cell: Cell): Reading<PaidAmount> =>
  notUnderstood(`the currency of "${textOf(cell)}" is not known`);

const textOf = (cell: Cell): string =>
  isAmountCell(cell) ? `${cell.number} ${cell.sign}` : String(cell ?? '');

/** The currency of what was paid, by a column of its own; null where nobody can tell which it is. */
const currencyOf = (row: RowReader, own: Currency): Currency | null => {
  const text = row.text('price_paid_currency');
  const named = currencyNamed(text, own);
  if (named !== null && isCurrency(named)) return named;
  row.miss('price_paid_currency', `"${text}" is not a currency; write its ISO 4217 code, such as USD`);
  return null;
};

/** Whether the days of one of our columns begin with the day or the month; null where that is not known. */
export const dayOrder = ({ mapping }: Habits, column: string) =>
  mapping.columns.find(({ ours }) => ours === column)?.dateOrder ?? null;

/** Why an amount that names no currency is not read where nobody can tell in which it is. */
export const whyBareIsOpen = (cell: Cell): string =>
  `"${textOf(cell)}" names no currency: say in which the amounts of its column without one are`;

/**
 * In which currency those amounts of one of our columns are that name none: `own` where nothing is to be said of
 * that, null where nobody can tell.
 */
export const bareCurrency = ({ mapping }: Habits, column: string, own: Currency): Currency | null => {
  const evidence = mapping.currencies.get(column);
  return evidence ? evidence.bareIn : own;
};

const moneyColumns = [
  'price_paid',
  'price_paid_currency',
  'bought_on',
  'seller',
  'own_estimate',
  'sold_on',
  'sold_for',
];

/** Of a heading over what one of several cost. */
const ofEach =
  /(?:^| )(?:each|ea\.?|apiece|per (?:car|unit|item|piece)|je|pro stück|la pièce|cad|cadauno|c\/u)$|^unit |^(?:einzel|stück)preis|unitaire$|unitario$/iu;

/** Reads what rows say of buying, selling and the owner's own estimate. */
export const moneyReader = (habits: Habits, { currency, reporting, today }: Terms) => {
  const { mapping } = habits;
  const dayOf = (column: string) => remembered(cell => readDate(cell, dayOrder(habits, column), today));
  const boughtOn = dayOf('bought_on');
  const soldOn = dayOf('sold_on');
  const amountIn = (column: string) => {
    const known = new Map<Currency, (cell: Cell) => Reading<PaidAmount>>();
    const habit = mapping.money.get(column) ?? {};
    return (of: Currency) => {
      const read = known.get(of) ?? remembered(cell => readPaid(cell, of, habit));
      known.set(of, read);
      return read;
    };
  };
  /** Amounts whose rows name no currency either. */
  const amountOf = (column: string) => {
    const bare = bareCurrency(habits, column, currency);
    const readIn = amountIn(column);
    const read = readIn(currency);
    if (bare === currency) return read;
    const readBare = bare === null ? (cell: Cell) => notUnderstood(whyBareIsOpen(cell)) : readIn(bare);
    // Who has said that bare amounts are in Danish kroner has said which crowns "kr" are.
    const isBare = (sign: string | null): boolean =>
      sign === '' ||
      (sign !== null &&
        bare !== null &&
        currencyNamed(sign, currency) === null &&
        currencyNamed(sign, bare) === bare);
    return (cell: Cell): Reading<PaidAmount> => (isBare(signOfPaid(cell)) ? readBare : read)(cell);
  };
  const paidBare = amountOf('price_paid');
  const paidIn = amountIn('price_paid');
  const soldFor = amountOf('sold_for');
  const estimateIn = (of: Currency) => (cell: Cell) =>
    readEstimate(cell, of, mapping.money.get('own_estimate') ?? {});
  const estimate = remembered(estimateIn(reporting));
  const headingOf = (column: string) => mapping.columns.find(({ ours }) => ours === column)?.heading ?? '';
  /** In which currency estimates are that name none: as their heading says, else the owner's own; null where that is open. */
  const bareEstimatesIn = ((): Currency | null => {
    const [one = reporting, ...more] = currenciesOfHeading(headingOf('own_estimate'), reporting);
    return more.length > 0 ? null : one;
  })();

  /** The owner's own estimate. One in another currency than theirs is shown, and waits. */
  const ownWorth = (row: RowReader): Range | null => {
    if (!row.has('own_estimate')) return null;
    const cell = row.cell('own_estimate');
    const named = currencyOfEstimate(cell, reporting);
    const known = named !== null && named !== 'none' && isCurrency(named) ? named : reporting;
    const currency = named === 'none' ? bareEstimatesIn : known;
    if (currency === null) {
      row.miss('own_estimate', whyBareIsOpen(cell));
      return null;
    }
    const isOwn = currency === reporting;
    const other = isOwn ? null : estimateIn(currency)(cell);
    const read = other?.ok ? other.value : row.read('own_estimate', estimate);
    if (read === null) return null;
    const told =
      read.mid === Math.round((read.low + read.high) / 2)
        ? [read.low, read.high]
        : [read.low, read.mid, read.high];
    row.fields.own_estimate =
      read.low === read.high
        ? inUnits(read.mid, currency)
        : told.map(minor => inUnits(minor, currency)).join('-');
    if (isOwn || !other?.ok) return read;
    row.fields.own_estimate_currency = currency;
    row.hold('own_estimate', `your estimates are in ${reporting}, and this one is in ${currency}`);
    return null;
  };

  const sale = (row: RowReader): SoldFor | null => {
    const day = row.take('sold_on', soldOn);
    const brought = row.read('sold_for', soldFor);
    if (brought) row.fields.sold_for = inUnits(brought.minor, brought.currency);
    if (day !== null && brought !== null && brought.minor >= 0)
      return { soldOn: day, proceeds: brought.minor, currency: brought.currency };
    // A sale has a day and a price; one without the other waits to be completed.
    if (day !== null)
      row.hold(
        'sold_on',
        row.has('sold_for')
          ? 'sold, but for how much is not understood'
          : 'sold, but for how much is not said',
        day,
      );
    if (brought !== null && day === null)
      row.hold(
        'sold_for',
        row.has('sold_on') ? 'sold, but when is not understood' : 'sold, but when is not said',
        `${brought.currency} ${inUnits(brought.minor, brought.currency)}`,
      );
    return null;
  };

  const nothing: MoneyOfRow = {
    purchase: { boughtOn: null, seller: '', paid: null },
    ownWorth: null,
    sold: null,
  };
  const isEach = ofEach.test(headingOf('price_paid').trim());

  return (row: RowReader, quantity: number): MoneyOfRow => {
    if (!row.mayHave(moneyColumns)) return nothing;
    const named = row.has('price_paid_currency') ? currencyOf(row, currency) : 'none';
    const read = row.read(
      'price_paid',
      named === 'none' ? paidBare : named === null ? unknownCurrency : paidIn(named),
    );
    const paid = read && { ...read, isEach: read.isEach || isEach };
    if (paid) {
      row.fields.price_paid = inUnits(paid.minor, paid.currency);
      row.fields.price_paid_currency = paid.currency;
      if (quantity > 1)
        row.notes.push(
          paid.isEach
            ? `${textOf(row.cell('price_paid'))} was paid for each of the ${quantity} cars`
            : `${textOf(row.cell('price_paid'))} was paid for the ${quantity} cars together`,
        );
    }
    return {
      purchase: {
        boughtOn: row.take('bought_on', boughtOn),
        seller: row.takeText('seller'),
        paid: paid && { minor: paid.isEach ? paid.minor * quantity : paid.minor, currency: paid.currency },
      },
      ownWorth: ownWorth(row),
      sold: sale(row),
    };
  };
};

/** A row of several cars cannot have been sold as one. */
export const soldAlone = (row: RowReader, sold: SoldFor | null, quantity: number): SoldFor | null => {
  if (sold === null || quantity === 1) return sold;
  row.hold('sold_on', 'which of these cars was sold is not said');
  row.hold('sold_for', 'which of these cars was sold is not said');
  return null;
};

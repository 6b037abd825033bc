import { listCars } from '../../../db/records/cars.ts';
import { listDisposals, listExpenses } from '../../../db/records/disposals.ts';
import { listLots, lotCosts } from '../../../db/records/lots.ts';
import { readSetting } from '../../../db/records/settings.ts';
import type { Ledger, LedgerLine } from '../../../reports/documents/kinds/ledger.ts';
import { currencyDecimals } from '../../../valuation/money.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { type Books, booksOf } from '../figures/books.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/** An amount on its day, with the rate at which it is brought to the reporting currency. */
const brought = (books: Books, minor: number, currency: string, on: string) => {
  const reported = books.convert(minor, currency, on);
  // Of a large amount, so that rounding to minor units does not show in the rate.
  const of = 1e9;
  const one = books.convert(of, currency, on);
  const scale = 10 ** (currencyDecimals(currency) - currencyDecimals(books.currency));
  return {
    minor,
    currency,
    reported,
    rate: one === null ? null : Number(((one / of) * scale).toPrecision(10)),
  };
};

/** What was bought, spent and sold from one day to another, the oldest first. */
export const ledgerOf = async (
  session: Session,
  { from, to, locale, paper }: Pick<Ledger, 'from' | 'to' | 'paper'> & { locale: string },
): Promise<Ledger> => {
  const { db } = openOf(session).read;
  const books = await booksOf(session);
  const within = (on: string | null): on is string => on !== null && on >= from && on <= to;
  const cars = new Map((await listCars(db)).map(car => [car.id, car]));
  const lots = new Map((await listLots(db)).map(lot => [lot.id, lot]));
  const costs = await lotCosts(db);
  const expenses = await listExpenses(db);
  const lines: LedgerLine[] = [];
  for (const lot of lots.values()) {
    const cost = (costs.get(lot.id) ?? []).reduce((sum, { minor }) => sum + minor, 0);
    if (!within(lot.boughtOn) || cost === 0) continue;
    const what = lot.seller ? `${lot.name}, from ${lot.seller}` : lot.name;
    lines.push({
      on: lot.boughtOn,
      kind: 'bought',
      what,
      ...brought(books, cost, lot.currency, lot.boughtOn),
      realised: null,
    });
  }
  const numberOf = (carId: number) => cars.get(carId)?.inventoryNumber ?? '';
  const stateOf = (carId: number) => {
    const state = cars.get(carId)?.finishState ?? 'original';
    return state === 'original' ? '' : spell(state, locale);
  };
  // Money is often spent before the work that gave a car its state.
  const numberNow = (carId: number) =>
    stateOf(carId) ? `${numberOf(carId)} (now ${stateOf(carId)})` : numberOf(carId);
  for (const expense of expenses)
    if (within(expense.spentOn))
      lines.push({
        on: expense.spentOn,
        kind: 'spent',
        what: `${numberNow(expense.carId)}: ${expense.what}`,
        ...brought(books, expense.minor, expense.currency, expense.spentOn),
        realised: null,
      });
  const spentOn = Map.groupBy(expenses, expense => expense.carId);
  for (const disposal of await listDisposals(db)) {
    if (!within(disposal.soldOn)) continue;
    const car = cars.get(disposal.carId);
    const lot = car?.lotId == null ? undefined : lots.get(car.lotId);
    const cost =
      car?.cost == null || !lot?.boughtOn ? null : books.convert(car.cost, lot.currency, lot.boughtOn);
    const spending = (spentOn.get(disposal.carId) ?? []).map(({ minor, currency, spentOn: on }) =>
      books.convert(minor, currency, on),
    );
    const net = disposal.proceeds - disposal.fees;
    const line = brought(books, net, disposal.currency, disposal.soldOn);
    const known = line.reported !== null && cost !== null && spending.every(minor => minor !== null);
    lines.push({
      on: disposal.soldOn,
      kind: 'sold',
      what: [numberOf(disposal.carId), stateOf(disposal.carId), disposal.buyer && `to ${disposal.buyer}`]
        .filter(Boolean)
        .join(', '),
      ...line,
      realised: known ? line.reported! - cost! - spending.reduce((sum, minor) => sum! + minor!, 0)! : null,
    });
  }
  lines.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  return {
    owner: (await readSetting(db, 'owner')) ?? '',
    from,
    to,
    reader: { locale, currency: books.currency },
    paper,
    lines,
  };
};

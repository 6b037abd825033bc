import { type CarRecord, listCars } from '../../../db/records/cars/cars.ts';
import { listDisposals, listExpenses } from '../../../db/records/cars/disposals.ts';
import { readSetting } from '../../../db/records/collection/settings.ts';
import { listLots, lotCosts } from '../../../db/records/lots/lots.ts';
import { listRates, type RateEntry } from '../../../db/records/worth/rates.ts';
import type { Ledger, LedgerLine } from '../../../reports/documents/kinds/ledger.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { type Books, booksOf } from '../figures/books.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

/** An amount on its day, with the rate, as it was entered, at which it is brought to the reporting currency. */
const broughtBy =
  (books: Books, rates: readonly RateEntry[]) => (minor: number, currency: string, on: string) => ({
    minor,
    currency,
    reported: books.convert(minor, currency, on),
    // The newest of a currency stands first.
    rate: rates.find(rate => rate.currency === currency && rate.on <= on) ?? null,
  });

/** True of a car in a lot that was bought by itself, on a day and for a price of its own. */
const isBoughtAlone = ({ boughtOn, costFixed, cost }: CarRecord): boolean =>
  boughtOn !== null && costFixed && cost !== null && cost > 0;

/** What was bought, spent and sold from one day to another, the oldest first. */
export const ledgerOf = async (
  session: Session,
  { from, to, locale, paper }: Pick<Ledger, 'from' | 'to' | 'paper'> & { locale: string },
): Promise<Ledger> => {
  const { db } = openOf(session).read;
  const books = await booksOf(session);
  const within = (on: string | null): on is string => on !== null && on >= from && on <= to;
  const cars = new Map((await listCars(db)).map(car => [car.id, car]));
  // The newest stands first in each of these lists; of one day, what was entered first is to come first.
  const lots = new Map((await listLots(db)).toReversed().map(lot => [lot.id, lot]));
  const costs = await lotCosts(db);
  const expenses = (await listExpenses(db)).toReversed();
  const brought = broughtBy(books, await listRates(db));
  const lines: LedgerLine[] = [];
  const undated: Ledger['undated'] = [];
  const singly = Map.groupBy([...cars.values()].filter(isBoughtAlone), ({ lotId }) => lotId);
  for (const lot of lots.values()) {
    const { currency } = lot;
    const buy = (on: string, name: string, seller: string, minor: number) => {
      if (!within(on)) return;
      const what = seller ? `${name}, from ${seller}` : name;
      lines.push({ on, kind: 'bought', what, ...brought(minor, currency, on), realised: null });
    };
    const alone = singly.get(lot.id) ?? [];
    for (const car of alone)
      buy(car.boughtOn!, `${car.inventoryNumber}, of ${lot.name}`, car.seller || lot.seller, car.cost!);
    const whole = (costs.get(lot.id) ?? []).reduce((sum, { minor }) => sum + minor, 0);
    const left = whole - alone.reduce((sum, { cost }) => sum + cost!, 0);
    if (left <= 0) continue;
    if (lot.boughtOn === null) undated.push({ what: lot.name, minor: left, currency });
    else buy(lot.boughtOn, lot.name, lot.seller, left);
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
        ...brought(expense.minor, expense.currency, expense.spentOn),
        realised: null,
      });
  const spentOn = Map.groupBy(expenses, expense => expense.carId);
  const disposals = (await listDisposals(db)).toReversed();
  for (const disposal of disposals) {
    if (!within(disposal.soldOn)) continue;
    const car = cars.get(disposal.carId);
    const lot = car?.lotId == null ? undefined : lots.get(car.lotId);
    const boughtOn = car && isBoughtAlone(car) ? car.boughtOn : lot?.boughtOn;
    const cost =
      car?.cost == null || !lot || !boughtOn ? null : books.convert(car.cost, lot.currency, boughtOn);
    const spending = (spentOn.get(disposal.carId) ?? []).map(({ minor, currency, spentOn: on }) =>
      books.convert(minor, currency, on),
    );
    const net = disposal.proceeds - disposal.fees;
    const line = brought(net, disposal.currency, disposal.soldOn);
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
  const recorded = new Set(disposals.map(({ carId }) => carId));
  lines.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
  return {
    owner: (await readSetting(db, 'owner')) ?? '',
    from,
    to,
    reader: { locale, currency: books.currency },
    paper,
    lines,
    undated,
    soldUnrecorded: [...cars.values()].filter(({ id, status }) => status === 'sold' && !recorded.has(id))
      .length,
  };
};

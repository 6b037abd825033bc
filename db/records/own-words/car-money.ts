import type { Transaction } from 'kysely';
import { type PaidAmount, partOf, readPaid } from '../../../valuation/reading/amounts.ts';
import type { Currency } from '../../../valuation/types.ts';
import type { Schema } from '../../schema.ts';
import type { CarRecord } from '../cars/cars.ts';
import { insertCars, nextInventoryNumbers } from '../cars/cars-write.ts';
import { insertDisposal, listDisposals, removeDisposal } from '../cars/disposals.ts';
import { findLot, findLotNamed, insertLot, lotCosts, replaceLotCosts, setShares } from '../lots/lots.ts';
import type { HeardText, UnreadText } from '../unread.ts';
import { valueGiven } from './divide.ts';

/** What the words of a car's purchase or sale come to. */
export interface MoneySettled {
  /** Lots whose cost is to be shared out again. */
  toShare: number[];
  /** Texts that wait on, with those of a sale that is not complete yet. */
  rest: UnreadText[];
  isSold: boolean;
  /** A text that had waited for the one that was settled. */
  freed?: UnreadText | undefined;
}

const addToPrice = async (trx: Transaction<Schema>, lotId: number, minor: number): Promise<void> => {
  const costs = (await lotCosts(trx, lotId)).get(lotId) ?? [];
  const own = costs.find(({ kind, note }) => kind === 'price' && note === '');
  const sum = (own?.minor ?? 0) + minor;
  const others = costs.filter(cost => cost !== own);
  await replaceLotCosts(trx, lotId, sum > 0 ? [{ kind: 'price', minor: sum, note: '' }, ...others] : others);
};

const carsBeside = (trx: Transaction<Schema>, lotId: number, carId: number) =>
  trx
    .selectFrom('car')
    .select(['cost_minor', 'cost_fixed'])
    .where('lot_id', '=', lotId)
    .where('id', '!=', carId)
    .execute();

/** The lot beside that of a car in which those of another currency are. */
const lotOfCurrency = async (
  trx: Transaction<Schema>,
  lotName: string,
  currency: Currency,
  at: string,
): Promise<number> => {
  const name = `${lotName} (${currency})`;
  const known = await findLotNamed(trx, name);
  if (known?.currency === currency) return known.id;
  const lot = {
    name,
    boughtOn: null,
    seller: '',
    currency,
    notes: '',
    costs: [],
    priceFrom: 'cars' as const,
  };
  return insertLot(trx, known ? { ...lot, name: `${name}, bought one by one` } : lot, at);
};

/**
 * What was paid for a car becomes its own share of its lot's cost. Where the lot's price is the sum of what
 * is known of its cars, that sum grows; otherwise it is a part of what the lot cost. Null where it cannot
 * stand.
 */
const pay = async (
  trx: Transaction<Schema>,
  car: CarRecord,
  paid: PaidAmount,
  at: string,
): Promise<number[] | null> => {
  const minor = paid.minor;
  let lot = car.lotId === null ? undefined : await findLot(trx, car.lotId);
  if (lot?.currency !== paid.currency) {
    const id = await lotOfCurrency(trx, lot?.name ?? 'Bought one by one', paid.currency, at);
    await trx.updateTable('car').set({ lot_id: id }).where('id', '=', car.id).execute();
    lot = await findLot(trx, id);
  }
  if (!lot) return null;
  const beside = await carsBeside(trx, lot.id, car.id);
  if (lot.priceFrom === 'cars') {
    await addToPrice(trx, lot.id, minor);
    const isShared = beside.some(({ cost_minor, cost_fixed }) => cost_minor !== null && cost_fixed === 0);
    if (isShared) return [lot.id];
    await setShares(trx, [{ carId: car.id, minor, fixed: true }]);
    return [];
  }
  const total = ((await lotCosts(trx, lot.id)).get(lot.id) ?? []).reduce((sum, cost) => sum + cost.minor, 0);
  const fixed = beside.reduce((sum, one) => sum + (one.cost_fixed === 1 ? (one.cost_minor ?? 0) : 0), 0);
  if (fixed + minor > total) return null;
  await setShares(trx, [{ carId: car.id, minor, fixed: true }]);
  return [lot.id];
};

/** The opposite of `pay`: where the share that was given still stands. */
const unpay = async (trx: Transaction<Schema>, car: CarRecord, minor: number): Promise<number[]> => {
  const lot = car.lotId === null ? undefined : await findLot(trx, car.lotId);
  if (!lot) return [];
  const isOwn = car.costFixed && car.cost === minor;
  if (!isOwn && (car.costFixed || lot.priceFrom === 'lot')) return [];
  if (lot.priceFrom === 'cars') await addToPrice(trx, lot.id, -minor);
  await trx.updateTable('car').set({ cost_minor: null, cost_fixed: 0 }).where('id', '=', car.id).execute();
  return isOwn && lot.priceFrom === 'cars' ? [] : [lot.id];
};

/**
 * Cars that equal this one, so that there are as many as were told; what was paid for all is shared equally.
 */
const multiply = async (trx: Transaction<Schema>, carId: number, quantity: number, at: string) => {
  const row = await trx.selectFrom('car').selectAll().where('id', '=', carId).executeTakeFirstOrThrow();
  const { id: _, inventory_number: __, created_at: ___, updated_at: ____, ...rest } = row;
  const numbers = await nextInventoryNumbers(trx, quantity - 1, row.lot_id);
  const share = (i: number) =>
    row.cost_minor !== null && row.cost_fixed === 1 ? partOf(row.cost_minor, quantity, i) : row.cost_minor;
  const ids = await insertCars(
    trx,
    numbers.map(inventoryNumber => ({ inventoryNumber })),
    at,
  );
  for (const [i, id] of ids.entries())
    await trx
      .updateTable('car')
      .set({ ...rest, cost_minor: share(i + 1), updated_at: at })
      .where('id', '=', id)
      .execute();
  await trx
    .updateTable('car')
    .set({ cost_minor: share(0) })
    .where('id', '=', carId)
    .execute();
  const candidates = await trx
    .selectFrom('car_candidate')
    .select('variation_id')
    .where('car_id', '=', carId)
    .orderBy('id')
    .execute();
  for (const id of ids)
    for (const { variation_id } of candidates)
      await trx.insertInto('car_candidate').values({ car_id: id, variation_id }).execute();
  return row.lot_id !== null && row.cost_minor !== null && row.cost_fixed === 0 ? [row.lot_id] : [];
};

/** The day and the price of a sale, of which each may have waited for the other. */
const saleIn = (settled: readonly HeardText[], rest: readonly UnreadText[]) => {
  const held = (field: string) => rest.find(({ holds }) => holds?.field === field);
  return {
    day: valueGiven(settled, 'sold_on') ?? held('sold_on')?.holds?.value,
    price: valueGiven(settled, 'sold_for') ?? held('sold_for')?.holds?.value,
  };
};

const currencyOfCar = async (trx: Transaction<Schema>, car: CarRecord, own: Currency): Promise<Currency> =>
  (car.lotId === null ? undefined : (await findLot(trx, car.lotId))?.currency) ?? own;

/** Books what words said of a car's price, number and sale; `own` is the reporting currency. */
export const settleMoney = async (
  trx: Transaction<Schema>,
  car: CarRecord,
  { settled, rest }: { settled: readonly HeardText[]; rest: readonly UnreadText[] },
  own: Currency,
  at: string,
): Promise<MoneySettled> => {
  const toShare: number[] = [];
  let left = [...rest];
  const named = valueGiven(settled, 'price_paid_currency');
  const currency = named ?? (await currencyOfCar(trx, car, own));
  // With its currency said, an amount that waited for it can be read.
  const waits = named === undefined ? undefined : left.find(({ field }) => field === 'price_paid');
  const price = valueGiven(settled, 'price_paid') ?? waits?.text;
  const paid = price === undefined ? undefined : readPaid(price, currency, {});
  if (paid?.ok && !car.costFixed) {
    const shared = await pay(trx, car, paid.value, at);
    if (shared) {
      toShare.push(...shared);
      left = left.filter(entry => entry !== waits);
    }
  }
  const quantity = Number(valueGiven(settled, 'quantity') ?? 1);
  if (quantity > 1) toShare.push(...(await multiply(trx, car.id, quantity, at)));
  const { day, price: brought } = saleIn(settled, left);
  const isTold = settled.some(({ gave }) => gave.sold_on !== undefined || gave.sold_for !== undefined);
  const [known] = await listDisposals(trx, [car.id]);
  if (!isTold || known) return { toShare, rest: left, isSold: false };
  const amount = brought === undefined ? undefined : readPaid(brought, currency, {});
  if (day !== undefined && amount?.ok && quantity === 1) {
    const { minor: proceeds, currency: soldIn } = amount.value;
    const blank = { fees: 0, buyer: '', venue: '', notes: '' };
    await insertDisposal(trx, { carId: car.id, soldOn: day, proceeds, currency: soldIn, ...blank });
    const freed = left.find(({ holds }) => holds?.field === 'sold_on' || holds?.field === 'sold_for');
    return { toShare, rest: left.filter(entry => entry !== freed), isSold: true, freed };
  }
  // One without the other waits to be completed.
  for (const { column, text, gave } of settled)
    for (const field of ['sold_on', 'sold_for'] as const)
      if (gave[field] !== undefined)
        left.push({ column, text, field: '', holds: { field, value: gave[field] } });
  return { toShare, rest: left, isSold: false };
};

/**
 * Takes back what words said of a car's price and sale, where that still stands; the number of cars stays.
 */
export const unsettleMoney = async (
  trx: Transaction<Schema>,
  car: CarRecord,
  heard: readonly HeardText[],
  unread: readonly UnreadText[],
  own: Currency,
): Promise<MoneySettled> => {
  const toShare: number[] = [];
  let rest = [...unread];
  const currency = valueGiven(heard, 'price_paid_currency') ?? (await currencyOfCar(trx, car, own));
  const price = valueGiven(heard, 'price_paid');
  const paid = price === undefined ? undefined : readPaid(price, currency, {});
  if (paid?.ok) toShare.push(...(await unpay(trx, car, paid.value.minor)));
  const day = valueGiven(heard, 'sold_on');
  const brought = valueGiven(heard, 'sold_for');
  if (day === undefined && brought === undefined) return { toShare, rest, isSold: car.status === 'sold' };
  rest = rest.filter(
    ({ column, text, holds }) =>
      !holds || !heard.some(entry => entry.column === column && entry.text === text),
  );
  const [sold] = await listDisposals(trx, [car.id]);
  const amount = brought === undefined ? undefined : readPaid(brought, currency, {});
  const stands =
    sold &&
    (day === undefined || sold.soldOn === day) &&
    (!amount?.ok || sold.proceeds === amount.value.minor);
  if (!stands) return { toShare, rest, isSold: car.status === 'sold' };
  await removeDisposal(trx, car.id);
  for (const { freed } of heard)
    if (freed && !heard.some(({ column, text }) => column === freed.column && text === freed.text))
      rest.push(freed);
  return { toShare, rest, isSold: false };
};

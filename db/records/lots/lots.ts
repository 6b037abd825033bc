import { type Kysely, type Selectable, sql, type Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { LotCostKind } from '../../../valuation/words.ts';
import { pieces } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

export interface LotCost {
  kind: LotCostKind;
  /** In the lot's currency. */
  minor: Minor;
  note: string;
}

/** A purchase of one or more cars for one price. */
export interface LotRecord {
  id: number;
  name: string;
  boughtOn: IsoDate | null;
  seller: string;
  currency: Currency;
  notes: string;
  /**
   * Whether its price was said of it as a whole, or is the sum of what is known of its cars: then a
   * car without a price of its own has none. Left out, the former.
   */
  priceFrom?: 'lot' | 'cars';
}

/** A lot as its row keeps it, read. */
export const rowToLot = (row: Selectable<Schema['lot']>): LotRecord => ({
  id: row.id,
  name: row.name,
  boughtOn: row.bought_on,
  seller: row.seller,
  currency: row.currency,
  notes: row.notes,
  priceFrom: row.price_from,
});

/** The columns of those parts of a lot that are given. */
export const lotToRow = (lot: Partial<Omit<LotRecord, 'id'>>) => ({
  ...(lot.name !== undefined && { name: lot.name }),
  ...(lot.boughtOn !== undefined && { bought_on: lot.boughtOn }),
  ...(lot.seller !== undefined && { seller: lot.seller }),
  ...(lot.currency !== undefined && { currency: lot.currency }),
  ...(lot.notes !== undefined && { notes: lot.notes }),
  ...(lot.priceFrom !== undefined && { price_from: lot.priceFrom }),
});

/** All lots, the latest purchase first; those without a date come last. */
export const listLots = async (db: Kysely<Schema>): Promise<LotRecord[]> =>
  (
    await db
      .selectFrom('lot')
      .selectAll()
      .orderBy('bought_on', order => order.desc().nullsLast())
      .orderBy('id', 'desc')
      .execute()
  ).map(rowToLot);

/** One lot, or undefined. */
export const findLot = async (db: Kysely<Schema>, id: number): Promise<LotRecord | undefined> => {
  const row = await db.selectFrom('lot').selectAll().where('id', '=', id).executeTakeFirst();
  return row && rowToLot(row);
};

/** The lot of this name, or undefined. */
export const findLotNamed = async (db: Kysely<Schema>, name: string): Promise<LotRecord | undefined> => {
  const row = await db.selectFrom('lot').selectAll().where('name', '=', name).executeTakeFirst();
  return row && rowToLot(row);
};

/** The costs of every lot, by lot id. */
export const lotCosts = async (db: Kysely<Schema>, lotId?: number): Promise<Map<number, LotCost[]>> => {
  let query = db.selectFrom('lot_cost').select(['lot_id', 'kind', 'minor', 'note']);
  if (lotId !== undefined) query = query.where('lot_id', '=', lotId);
  const costs = new Map<number, LotCost[]>();
  for (const { lot_id, ...cost } of await query.orderBy('id').execute()) {
    const list = costs.get(lot_id);
    if (list) list.push(cost);
    else costs.set(lot_id, [cost]);
  }
  return costs;
};

/** How many cars a lot has. */
export const countCarsOfLot = async (db: Kysely<Schema>, lotId: number): Promise<number> =>
  (
    await db
      .selectFrom('car')
      .select(eb => eb.fn.countAll<number>().as('number'))
      .where('lot_id', '=', lotId)
      .executeTakeFirstOrThrow()
  ).number;

/** Those of these lots that have cars, each with how many, by name. */
export const carsByLot = async (
  db: Kysely<Schema>,
  ids: readonly number[],
): Promise<{ id: number; name: string; cars: number }[]> => {
  const found: { id: number; name: string; cars: number }[] = [];
  for (const piece of pieces([...new Set(ids)]))
    found.push(
      ...(await db
        .selectFrom('lot')
        .innerJoin('car', 'car.lot_id', 'lot.id')
        .select(eb => ['lot.id', 'lot.name', eb.fn.countAll<number>().as('cars')])
        .where('lot.id', 'in', piece)
        .groupBy(['lot.id', 'lot.name'])
        .execute()),
    );
  return found.sort((a, b) => (a.name < b.name ? -1 : 1));
};

/** Adds a lot with its costs; `at` is the instant of entering. */
export const insertLot = async (
  trx: Transaction<Schema>,
  lot: Omit<LotRecord, 'id'> & { costs: LotCost[] },
  at: string,
): Promise<number> => {
  const { id } = await trx
    .insertInto('lot')
    .values({
      name: lot.name,
      bought_on: lot.boughtOn,
      seller: lot.seller,
      currency: lot.currency,
      notes: lot.notes,
      price_from: lot.priceFrom ?? 'lot',
      created_at: at,
    })
    .returning('id')
    .executeTakeFirstOrThrow();
  await replaceLotCosts(trx, id, lot.costs);
  return id;
};

/** Changes the given parts of a lot. */
export const updateLot = async (
  trx: Transaction<Schema>,
  id: number,
  changes: Partial<Omit<LotRecord, 'id'>>,
): Promise<void> => {
  const values = lotToRow(changes);
  if (Object.keys(values).length > 0)
    await trx.updateTable('lot').set(values).where('id', '=', id).executeTakeFirstOrThrow();
};

/** Replaces what a lot cost; two costs of one kind and note become one. */
export const replaceLotCosts = async (
  trx: Transaction<Schema>,
  lotId: number,
  costs: LotCost[],
): Promise<void> => {
  await trx.deleteFrom('lot_cost').where('lot_id', '=', lotId).execute();
  const sums = new Map<string, LotCost>();
  for (const cost of costs) {
    const key = `${cost.kind}\n${cost.note}`;
    sums.set(key, { ...cost, minor: (sums.get(key)?.minor ?? 0) + cost.minor });
  }
  const rows = [...sums.values()].map(cost => ({ lot_id: lotId, ...cost }));
  if (rows.length > 0) await trx.insertInto('lot_cost').values(rows).execute();
};

/** Removes a lot; its cars stay, without a lot and without a share of its cost. */
export const removeLot = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx
    .updateTable('car')
    .set({ lot_id: null, cost_minor: null, cost_fixed: 0 })
    .where('lot_id', '=', id)
    .execute();
  await trx.deleteFrom('lot').where('id', '=', id).executeTakeFirstOrThrow();
};

/** Takes every share of a lot's cost off its cars. */
export const clearShares = async (trx: Transaction<Schema>, lotId: number): Promise<void> => {
  await trx
    .updateTable('car')
    .set({ cost_minor: null, cost_fixed: 0 })
    .where('lot_id', '=', lotId)
    .where('cost_minor', 'is not', null)
    .execute();
};

/** Sets the share of its lot's cost that each car carries; shares that stand already are left alone. */
export const setShares = async (
  trx: Transaction<Schema>,
  shares: { carId: number; minor: Minor; fixed: boolean }[],
): Promise<void> => {
  for (const piece of pieces(shares)) {
    const values = JSON.stringify(piece.map(({ carId, minor, fixed }) => [carId, minor, fixed ? 1 : 0]));
    await sql`
      UPDATE car SET cost_minor = share.value ->> 1, cost_fixed = share.value ->> 2
      FROM json_each(${values}) AS share
      WHERE car.id = share.value ->> 0
        AND (cost_minor IS NOT share.value ->> 1 OR cost_fixed IS NOT share.value ->> 2)`.execute(trx);
  }
};

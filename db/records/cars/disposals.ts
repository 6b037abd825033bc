import type { Kysely, Selectable, Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import { inChunks } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** A car given away for money. */
export interface Disposal {
  id: number;
  carId: number;
  soldOn: IsoDate;
  proceeds: Minor;
  fees: Minor;
  currency: Currency;
  buyer: string;
  venue: string;
  notes: string;
}

/** Money spent on a car, such as for parts. */
export interface Expense {
  id: number;
  carId: number;
  spentOn: IsoDate;
  what: string;
  minor: Minor;
  currency: Currency;
}

/** Disposals, of all cars or of those given, the latest first. */
export const listDisposals = async (db: Kysely<Schema>, carIds?: number[]): Promise<Disposal[]> => {
  const read = async (ids?: number[]) => {
    let query = db.selectFrom('disposal').selectAll();
    if (ids) query = query.where('car_id', 'in', ids);
    const rows = await query.orderBy('sold_on', 'desc').orderBy('id', 'desc').execute();
    return rows.map(row => ({
      id: row.id,
      carId: row.car_id,
      soldOn: row.sold_on,
      proceeds: row.proceeds_minor,
      fees: row.fees_minor,
      currency: row.currency,
      buyer: row.buyer,
      venue: row.venue,
      notes: row.notes,
    }));
  };
  return inChunks(carIds, read);
};

/** The inventory numbers of cars that are marked as sold and have no sale recorded. */
export const soldWithoutSale = async (db: Kysely<Schema>): Promise<string[]> =>
  (
    await db
      .selectFrom('car')
      .leftJoin('disposal', 'disposal.car_id', 'car.id')
      .select('inventory_number')
      .where('status', '=', 'sold')
      .where('disposal.id', 'is', null)
      .orderBy('inventory_number')
      .execute()
  ).map(row => row.inventory_number);

/** Records a disposal. Throws where the car has one already. */
export const insertDisposal = async (
  trx: Transaction<Schema>,
  disposal: Omit<Disposal, 'id'>,
): Promise<number> =>
  (
    await trx
      .insertInto('disposal')
      .values({
        car_id: disposal.carId,
        sold_on: disposal.soldOn,
        proceeds_minor: disposal.proceeds,
        fees_minor: disposal.fees,
        currency: disposal.currency,
        buyer: disposal.buyer,
        venue: disposal.venue,
        notes: disposal.notes,
      })
      .returning('id')
      .executeTakeFirstOrThrow()
  ).id;

/** Takes a car's disposal back, with the sale record that it became. */
export const removeDisposal = async (trx: Transaction<Schema>, carId: number): Promise<void> => {
  const rows = await trx.selectFrom('disposal').select('id').where('car_id', '=', carId).execute();
  for (const { id } of rows) {
    await trx.deleteFrom('sale_record').where('disposal_id', '=', id).execute();
    await trx.deleteFrom('disposal').where('id', '=', id).execute();
  }
};

const rowToExpense = (row: Selectable<Schema['expense']>): Expense => ({
  id: row.id,
  carId: row.car_id,
  spentOn: row.spent_on,
  what: row.what,
  minor: row.minor,
  currency: row.currency,
});

/** One expense, or undefined. */
export const findExpense = async (db: Kysely<Schema>, id: number): Promise<Expense | undefined> => {
  const row = await db.selectFrom('expense').selectAll().where('id', '=', id).executeTakeFirst();
  return row && rowToExpense(row);
};

/** Expenses, of all cars or of those given, the oldest first. */
export const listExpenses = async (db: Kysely<Schema>, carIds?: number[]): Promise<Expense[]> => {
  const read = async (ids?: number[]) => {
    let query = db.selectFrom('expense').selectAll();
    if (ids) query = query.where('car_id', 'in', ids);
    const rows = await query.orderBy('spent_on').orderBy('id').execute();
    return rows.map(rowToExpense);
  };
  return inChunks(carIds, read);
};

/** Records money spent on a car. */
export const insertExpense = async (
  trx: Transaction<Schema>,
  expense: Omit<Expense, 'id'>,
): Promise<number> =>
  (
    await trx
      .insertInto('expense')
      .values({
        car_id: expense.carId,
        spent_on: expense.spentOn,
        what: expense.what,
        minor: expense.minor,
        currency: expense.currency,
      })
      .returning('id')
      .executeTakeFirstOrThrow()
  ).id;

/** Removes an expense. */
export const removeExpense = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('expense').where('id', '=', id).executeTakeFirstOrThrow();
};

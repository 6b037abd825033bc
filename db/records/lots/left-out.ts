import type { Kysely, Transaction } from 'kysely';
import type { Schema } from '../../schema.ts';

/** That what was paid is left out of estimates, and why; '' where nothing was said. */
export interface LeftOut {
  leftOut: boolean;
  why: string;
}

/** Leaves what was paid for a lot, or for a car bought alone, out of estimates, or takes it in again. */
export const leaveOutPurchase = async (
  trx: Transaction<Schema>,
  { of, id }: { of: 'lot' | 'car'; id: number },
  { leftOut, why }: LeftOut,
): Promise<void> => {
  const values = { purchase_left_out: leftOut ? 1 : 0, purchase_left_out_why: leftOut ? why : '' } as const;
  if (of === 'lot') await trx.updateTable('lot').set(values).where('id', '=', id).execute();
  else await trx.updateTable('car').set(values).where('id', '=', id).execute();
};

/** The rows of a table that are left out. */
const leftOutRows = (db: Kysely<Schema>, table: 'car' | 'lot') =>
  db
    .selectFrom(table)
    .select(['id', 'purchase_left_out_why as why'])
    .where('purchase_left_out', '=', 1)
    .execute();

/** The lots that are left out, by id, with why; "yes" where nothing was said. */
export const leftOutLots = async (db: Kysely<Schema>): Promise<Map<number, string>> =>
  new Map((await leftOutRows(db, 'lot')).map(({ id, why }) => [id, why || 'yes']));

/** Whether a lot is left out, and which of its cars are, by car id. */
export const leftOutOf = async (
  db: Kysely<Schema>,
  lotId: number,
): Promise<{ lot: LeftOut; cars: Map<number, LeftOut> }> => {
  const columns = ['id', 'purchase_left_out', 'purchase_left_out_why'] as const;
  const lot = await db.selectFrom('lot').select(columns).where('id', '=', lotId).executeTakeFirst();
  const cars = await db
    .selectFrom('car')
    .select(columns)
    .where('lot_id', '=', lotId)
    .where('purchase_left_out', '=', 1)
    .execute();
  const said = (row: Omit<NonNullable<typeof lot>, 'id'>): LeftOut => ({
    leftOut: row.purchase_left_out === 1,
    why: row.purchase_left_out_why,
  });
  return {
    lot: lot ? said(lot) : { leftOut: false, why: '' },
    cars: new Map(cars.map(car => [car.id, said(car)])),
  };
};

/** Why what was paid for a car is left out of estimates, by car id; cars of which it counts are not in it. */
export const leftOutCars = async (db: Kysely<Schema>): Promise<Map<number, string>> =>
  new Map((await leftOutRows(db, 'car')).map(({ id, why }) => [id, why]));

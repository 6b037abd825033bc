import type { Kysely, Transaction } from 'kysely';
import type { Currency, Minor } from '../../valuation/types.ts';
import type { Schema } from '../schema.ts';

/** A part on the shelf, and how many of it the plans of cars that are not sold ask for. */
export interface PartOnShelf {
  id: number;
  name: string;
  inStock: number;
  unit: Minor | null;
  currency: Currency | null;
  planned: number;
}

/** All parts, by name. */
export const listParts = async (db: Kysely<Schema>): Promise<PartOnShelf[]> => {
  const rows = await db
    .selectFrom('part')
    .leftJoin(
      eb =>
        eb
          .selectFrom('plan_line')
          .innerJoin('restoration_plan', 'restoration_plan.id', 'plan_line.plan_id')
          .innerJoin('car', 'car.id', 'restoration_plan.car_id')
          .select(['plan_line.part_id', 'plan_line.quantity'])
          .where('car.status', '!=', 'sold')
          .as('wanted'),
      join => join.onRef('wanted.part_id', '=', 'part.id'),
    )
    .select(['part.id', 'part.name', 'part.in_stock', 'part.unit_minor', 'part.currency'])
    .select(eb => eb.fn.coalesce(eb.fn.sum<number>('wanted.quantity'), eb.val(0)).as('planned'))
    .groupBy('part.id')
    .orderBy('part.name')
    .execute();
  return rows.map(row => ({
    id: row.id,
    name: row.name,
    inStock: row.in_stock,
    unit: row.unit_minor,
    currency: row.currency,
    planned: row.planned,
  }));
};

/** The id of the part of this name, added without stock where there is none. */
export const ensurePart = async (trx: Transaction<Schema>, name: string): Promise<number> => {
  const found = await trx.selectFrom('part').select('id').where('name', '=', name).executeTakeFirst();
  if (found) return found.id;
  return (
    await trx
      .insertInto('part')
      .values({ name, unit_minor: null, currency: null })
      .returning('id')
      .executeTakeFirstOrThrow()
  ).id;
};

/** Adds a part, or changes the one of this id. */
export const savePart = async (
  trx: Transaction<Schema>,
  part: { id?: number; name: string; inStock: number; unit: Minor | null; currency: Currency | null },
): Promise<void> => {
  const values = {
    name: part.name,
    in_stock: part.inStock,
    unit_minor: part.unit,
    currency: part.currency,
  };
  if (part.id === undefined) await trx.insertInto('part').values(values).execute();
  else await trx.updateTable('part').set(values).where('id', '=', part.id).execute();
};

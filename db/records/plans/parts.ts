import type { Kysely, Transaction } from 'kysely';
import type { Currency, Minor } from '../../../valuation/types.ts';
import type { Grade, Originality, PartName } from '../../../valuation/words.ts';
import { gradeToHalf, halfToGrade } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import { seenLots } from '../seen-lots.ts';

/** A part on the shelf, and how many of it the plans of the owner's cars ask for. */
export interface PartOnShelf {
  id: number;
  name: string;
  inStock: number;
  unit: Minor | null;
  currency: Currency | null;
  /**
   * Which part of a car it is, empty where it is none that is graded; its origin and grade; the casting that
   * it fits, null for any; the car that it came from.
   */
  part: PartName | '';
  originality: Exclude<Originality, 'missing'> | '';
  grade: Grade | null;
  castingId: number | null;
  casting: string | null;
  donorCarId: number | null;
  donorNumber: string | null;
  planned: number;
}

/** All parts, by name. */
export const listParts = async (db: Kysely<Schema>): Promise<PartOnShelf[]> => {
  const rows = await db
    .selectFrom('part')
    .leftJoin('casting', 'casting.id', 'part.casting_id')
    .leftJoin('car as donor', 'donor.id', 'part.donor_car_id')
    .leftJoin(
      eb =>
        eb
          .selectFrom('plan_line')
          .innerJoin('restoration_plan', 'restoration_plan.id', 'plan_line.plan_id')
          .innerJoin('car', 'car.id', 'restoration_plan.car_id')
          .select(['plan_line.part_id', 'plan_line.quantity'])
          .where('car.status', '!=', 'sold')
          .where(car => car.or([car('car.lot_id', 'is', null), car('car.lot_id', 'not in', seenLots(db))]))
          .as('wanted'),
      join => join.onRef('wanted.part_id', '=', 'part.id'),
    )
    .select(['part.id', 'part.name', 'part.in_stock', 'part.unit_minor', 'part.currency'])
    .select(['part.part', 'part.originality', 'part.grade_half', 'part.casting_id', 'part.donor_car_id'])
    .select(['casting.name as casting', 'donor.inventory_number as donor_number'])
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
    part: row.part,
    originality: row.originality,
    grade: halfToGrade(row.grade_half),
    castingId: row.casting_id,
    casting: row.casting,
    donorCarId: row.donor_car_id,
    donorNumber: row.donor_number,
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

/** Adds a part, or changes the one of this id; what is not said of it stays as it is. */
export const savePart = async (
  trx: Transaction<Schema>,
  part: Pick<PartOnShelf, 'name' | 'inStock' | 'unit' | 'currency'> & {
    id?: number | undefined;
    part?: PartOnShelf['part'] | undefined;
    originality?: PartOnShelf['originality'] | undefined;
    grade?: Grade | null | undefined;
    castingId?: number | null | undefined;
    donorCarId?: number | null | undefined;
  },
): Promise<void> => {
  const values = {
    name: part.name,
    in_stock: part.inStock,
    unit_minor: part.unit,
    currency: part.currency,
    ...(part.part !== undefined && { part: part.part }),
    ...(part.originality !== undefined && { originality: part.originality }),
    ...(part.grade !== undefined && { grade_half: gradeToHalf(part.grade) }),
    ...(part.castingId !== undefined && { casting_id: part.castingId }),
    ...(part.donorCarId !== undefined && { donor_car_id: part.donorCarId }),
  };
  if (part.id === undefined) await trx.insertInto('part').values(values).execute();
  else await trx.updateTable('part').set(values).where('id', '=', part.id).execute();
};

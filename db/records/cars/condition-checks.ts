import type { Kysely, Transaction } from 'kysely';
import type { IsoDate, PartState } from '../../../valuation/types.ts';
import type { Grade } from '../../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

export type PartGrade = PartState & { note: string };

/** A car looked at part by part on a day. */
export interface ConditionCheck {
  id: number;
  checkedOn: IsoDate;
  grade: Grade | null;
  notes: string;
  parts: PartGrade[];
}

/** The checks of cars by car id, each car's newest first. */
export const checksOfCars = async (
  db: Kysely<Schema>,
  carIds?: number[],
): Promise<Map<number, ConditionCheck[]>> => {
  const checks = await inChunks(carIds, ids => {
    const query = db
      .selectFrom('condition_check')
      .selectAll()
      .orderBy('checked_on', 'desc')
      .orderBy('id', 'desc');
    return (ids ? query.where('car_id', 'in', ids) : query).execute();
  });
  const parts = await inChunks(carIds, ids => {
    const query = db
      .selectFrom('part_grade')
      .innerJoin('condition_check', 'condition_check.id', 'part_grade.check_id')
      .selectAll('part_grade')
      .orderBy('part_grade.id');
    return (ids ? query.where('condition_check.car_id', 'in', ids) : query).execute();
  });
  const ofCheck = Map.groupBy(parts, part => part.check_id);
  return new Map(
    [...Map.groupBy(checks, check => check.car_id)].map(([carId, group]) => [
      carId,
      group.map(check => ({
        id: check.id,
        checkedOn: check.checked_on,
        grade: halfToGrade(check.grade_half),
        notes: check.notes,
        parts: (ofCheck.get(check.id) ?? []).map(part => ({
          part: part.part,
          grade: halfToGrade(part.grade_half),
          originality: part.originality,
          note: part.note,
        })),
      })),
    ]),
  );
};

/** A car's checks, the newest first. */
export const carChecks = async (db: Kysely<Schema>, carId: number): Promise<ConditionCheck[]> =>
  (await checksOfCars(db, [carId])).get(carId) ?? [];

/** The parts as the newest check of each car found them, by car id; all cars, or those given. */
export const latestParts = async (
  db: Kysely<Schema>,
  carIds?: number[],
): Promise<Map<number, PartState[]>> => {
  const rows = await inChunks(carIds, ids => {
    const query = db
      .selectFrom('part_grade')
      .innerJoin('condition_check as check', 'check.id', 'part_grade.check_id')
      .select(['check.car_id', 'part_grade.part', 'part_grade.grade_half', 'part_grade.originality'])
      .where(eb =>
        eb.not(
          eb.exists(
            eb
              .selectFrom('condition_check as newer')
              .select('newer.id')
              .whereRef('newer.car_id', '=', 'check.car_id')
              .where(or =>
                or.or([
                  or('newer.checked_on', '>', or.ref('check.checked_on')),
                  or.and([
                    or('newer.checked_on', '=', or.ref('check.checked_on')),
                    or('newer.id', '>', or.ref('check.id')),
                  ]),
                ]),
              ),
          ),
        ),
      )
      .orderBy('part_grade.id');
    return (ids ? query.where('check.car_id', 'in', ids) : query).execute();
  });
  return new Map(
    [...Map.groupBy(rows, row => row.car_id)].map(([carId, group]) => [
      carId,
      group.map(row => ({
        part: row.part,
        grade: halfToGrade(row.grade_half),
        originality: row.originality,
      })),
    ]),
  );
};

/** Keeps a check and its parts: a new one, or in place of the one of this id. Returns its id. */
export const saveCheck = async (
  trx: Transaction<Schema>,
  carId: number,
  check: Omit<ConditionCheck, 'id'> & { id: number | null },
): Promise<number> => {
  const values = { checked_on: check.checkedOn, grade_half: gradeToHalf(check.grade), notes: check.notes };
  let { id } = check;
  if (id === null) {
    const row = await trx
      .insertInto('condition_check')
      .values({ car_id: carId, ...values })
      .returning('id')
      .executeTakeFirstOrThrow();
    id = row.id;
  } else {
    await trx
      .updateTable('condition_check')
      .set(values)
      .where('id', '=', id)
      .where('car_id', '=', carId)
      .executeTakeFirstOrThrow();
    await trx.deleteFrom('part_grade').where('check_id', '=', id).execute();
  }
  const checkId = id;
  const parts = new Map(check.parts.map(part => [part.part, part]));
  const rows = [...parts.values()].map(part => ({
    check_id: checkId,
    part: part.part,
    grade_half: gradeToHalf(part.grade),
    originality: part.originality,
    note: part.note,
  }));
  if (rows.length > 0) await trx.insertInto('part_grade').values(rows).execute();
  return checkId;
};

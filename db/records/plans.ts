import type { Kysely, Transaction } from 'kysely';
import type { PartState, RestorationPlan } from '../../valuation/types.ts';
import { deviationKinds, isGrade, originalities, partNames } from '../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks, readJson, readWords } from '../codec.ts';
import type { Schema } from '../schema.ts';
import { ensurePart } from './parts.ts';

export type StoredPlan = RestorationPlan & { carId: number; notes: string };

const hours = (minutes: number) => minutes / 60;
const minutes = (hour: number) => Math.round(hour * 60);

const readParts = (json: string): PartState[] => {
  const value = readJson(json);
  if (!Array.isArray(value)) return [];
  return value.flatMap(entry => {
    const part = partNames.find(name => name === entry?.part);
    const originality = originalities.find(name => name === entry?.originality);
    if (!part || !originality) return [];
    return [{ part, originality, grade: isGrade(entry.grade) ? entry.grade : null }];
  });
};

/** The owner's plans by car id; of all cars, or of those given. */
export const readPlans = async (db: Kysely<Schema>, carIds?: number[]): Promise<Map<number, StoredPlan>> => {
  const plans = new Map<number, StoredPlan>();
  const read = async (ids?: number[]) => {
    let query = db.selectFrom('restoration_plan').selectAll();
    let lineQuery = db
      .selectFrom('plan_line')
      .innerJoin('restoration_plan', 'restoration_plan.id', 'plan_line.plan_id')
      .leftJoin('part', 'part.id', 'plan_line.part_id')
      .selectAll('plan_line')
      .select(['restoration_plan.car_id', 'part.name as part_name']);
    if (ids) {
      query = query.where('car_id', 'in', ids);
      lineQuery = lineQuery.where('restoration_plan.car_id', 'in', ids);
    }
    for (const row of await query.execute())
      plans.set(row.car_id, {
        carId: row.car_id,
        kind: row.kind,
        targetGrade: halfToGrade(row.target_half),
        deviations: readWords(row.deviations, deviationKinds),
        partsAfter: readParts(row.parts_after),
        hours: {
          low: hours(row.minutes_low),
          likely: hours(row.minutes_likely),
          high: hours(row.minutes_high),
        },
        spoilChance: row.spoil_permille / 1000,
        spoiledShare: row.spoiled_share_permille / 1000,
        lines: [],
        notes: row.notes,
      });
    for (const row of await lineQuery.orderBy('plan_line.id').execute())
      plans.get(row.car_id)?.lines.push({
        name: row.name,
        kind: row.kind,
        cost: { low: row.low_minor, likely: row.likely_minor, high: row.high_minor },
        ...(row.part_name !== null && { part: row.part_name }),
        quantity: row.quantity,
      });
  };
  if (!carIds) await read();
  else for (const ids of inChunks(carIds)) await read(ids);
  return plans;
};

/** Keeps a car's plan in place of an earlier one. Hours are kept to the minute, shares to the thousandth. */
export const savePlan = async (trx: Transaction<Schema>, plan: StoredPlan): Promise<void> => {
  const values = {
    kind: plan.kind,
    target_half: gradeToHalf(plan.targetGrade),
    deviations: JSON.stringify(plan.deviations),
    parts_after: JSON.stringify(plan.partsAfter),
    minutes_low: minutes(plan.hours.low),
    minutes_likely: minutes(plan.hours.likely),
    minutes_high: minutes(plan.hours.high),
    spoil_permille: Math.round(plan.spoilChance * 1000),
    spoiled_share_permille: Math.round(plan.spoiledShare * 1000),
    notes: plan.notes,
  };
  const { id } = await trx
    .insertInto('restoration_plan')
    .values({ car_id: plan.carId, ...values })
    .onConflict(conflict => conflict.column('car_id').doUpdateSet(values))
    .returning('id')
    .executeTakeFirstOrThrow();
  await trx.deleteFrom('plan_line').where('plan_id', '=', id).execute();
  for (const line of plan.lines)
    await trx
      .insertInto('plan_line')
      .values({
        plan_id: id,
        kind: line.kind,
        name: line.name,
        low_minor: line.cost.low,
        likely_minor: line.cost.likely,
        high_minor: line.cost.high,
        part_id: line.part === undefined ? null : await ensurePart(trx, line.part),
        quantity: line.quantity ?? 1,
      })
      .execute();
};

/** Removes a car's plan; the standard one then stands in. */
export const removePlan = async (trx: Transaction<Schema>, carId: number): Promise<void> => {
  await trx.deleteFrom('restoration_plan').where('car_id', '=', carId).execute();
};

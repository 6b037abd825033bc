import type { Kysely, Transaction } from 'kysely';
import type { PartState, PlanWishes, RestorationPlan, WorkLine } from '../../../valuation/types.ts';
import {
  deviationKinds,
  isGrade,
  originalities,
  type PlanKind,
  partNames,
} from '../../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks, readJson, readWords } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import { ensurePart } from './parts.ts';
import { rowToStep, type SavedLine, stepToRow } from './plan-steps.ts';

export type StoredPlan = RestorationPlan & {
  carId: number;
  notes: string;
  /** What it was made of; absent for one that was written down in figures. */
  made?: MadeOf;
};

/**
 * The wishes with which a plan was made from its car, the version of the steps (0: the starting steps), and
 * its lines as they were then.
 */
export interface MadeOf {
  wishes: PlanWishes;
  libraryVersion: number;
  lines: readonly WorkLine[];
}

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
  const rows = await inChunks(carIds, ids => {
    const query = db.selectFrom('restoration_plan').selectAll();
    return (ids ? query.where('car_id', 'in', ids) : query).execute();
  });
  const lines = await inChunks(carIds, ids => {
    const query = db
      .selectFrom('plan_line')
      .innerJoin('restoration_plan', 'restoration_plan.id', 'plan_line.plan_id')
      .leftJoin('part', 'part.id', 'plan_line.part_id')
      .selectAll('plan_line')
      .select('part.name as part_name')
      .orderBy('plan_line.id');
    return (ids ? query.where('restoration_plan.car_id', 'in', ids) : query).execute();
  });
  const ofPlan = Map.groupBy(lines, line => line.plan_id);
  return new Map(
    rows.map(row => [
      row.car_id,
      {
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
        lines: (ofPlan.get(row.id) ?? []).map(line => ({
          name: line.name,
          kind: line.kind,
          cost: { low: line.low_minor, likely: line.likely_minor, high: line.high_minor },
          ...(line.part_name !== null && { part: line.part_name }),
          quantity: line.quantity,
        })),
        notes: row.notes,
        ...(row.closure !== null && { closure: row.closure }),
      },
    ]),
  );
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
    closure: plan.closure ?? null,
    wishes: JSON.stringify(plan.made?.wishes ?? {}),
    library_version: plan.made?.libraryVersion ?? null,
  };
  const { id } = await trx
    .insertInto('restoration_plan')
    .values({ car_id: plan.carId, ...values })
    .onConflict(conflict => conflict.column('car_id').doUpdateSet(values))
    .returning('id')
    .executeTakeFirstOrThrow();
  await trx.deleteFrom('plan_line').where('plan_id', '=', id).execute();
  await trx.deleteFrom('plan_step').where('plan_id', '=', id).execute();
  for (const [position, line] of (plan.made?.lines ?? []).entries())
    await trx
      .insertInto('plan_step')
      .values({ plan_id: id, ...stepToRow(line, position) })
      .execute();
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

/**
 * What a car's saved plan was made of, with its lines as they were saved; undefined where it has none that
 * was made from its car.
 */
export const readMadeOf = async (
  db: Kysely<Schema>,
  carId: number,
): Promise<(Omit<MadeOf, 'lines'> & { lines: SavedLine[]; kind: PlanKind; notes: string }) | undefined> => {
  const row = await db
    .selectFrom('restoration_plan')
    .select(['id', 'kind', 'wishes', 'library_version', 'notes'])
    .where('car_id', '=', carId)
    .executeTakeFirst();
  if (!row || row.library_version === null) return undefined;
  const steps = await db
    .selectFrom('plan_step')
    .selectAll()
    .where('plan_id', '=', row.id)
    .orderBy('position')
    .execute();
  return {
    kind: row.kind,
    wishes: (readJson(row.wishes) ?? {}) as PlanWishes,
    libraryVersion: row.library_version,
    lines: steps.map(rowToStep),
    notes: row.notes,
  };
};

import type { Kysely, Transaction } from 'kysely';
import type { PlanWishes, ThreePoint, WorkPlan } from '../../../valuation/types.ts';
import type { CareKind } from '../../../valuation/words.ts';
import { inChunks, readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';
import type { SavedLine } from './plan-steps.ts';

/**
 * A plan to conserve a car or to use it for its parts, as it was saved: what it takes, and what it was made
 * of.
 */
export interface CarePlan extends Pick<WorkPlan, 'hours' | 'cost' | 'spoilChance' | 'spoiledShare'> {
  carId: number;
  kind: CareKind;
  wishes: PlanWishes;
  /** The version of the steps; 0 for the starting steps. */
  libraryVersion: number;
  lines: readonly SavedLine[];
  notes: string;
}

const readLines = (json: string): SavedLine[] => {
  const value = readJson(json);
  return Array.isArray(value)
    ? value.filter((one): one is SavedLine => typeof one?.id === 'string' && typeof one.name === 'string')
    : [];
};

const inHours = (low: number, likely: number, high: number): ThreePoint => ({
  low: low / 60,
  likely: likely / 60,
  high: high / 60,
});

/** The plans of care by car id; of all cars, or of those given. */
export const readCarePlans = async (
  db: Kysely<Schema>,
  carIds?: number[],
): Promise<Map<number, CarePlan[]>> => {
  const rows = await inChunks(carIds, ids => {
    const query = db.selectFrom('care_plan').selectAll().orderBy('id');
    return (ids ? query.where('car_id', 'in', ids) : query).execute();
  });
  return Map.groupBy(
    rows.map(row => ({
      carId: row.car_id,
      kind: row.kind,
      hours: inHours(row.minutes_low, row.minutes_likely, row.minutes_high),
      cost: { low: row.low_minor, likely: row.likely_minor, high: row.high_minor },
      spoilChance: row.spoil_permille / 1000,
      spoiledShare: row.spoiled_share_permille / 1000,
      wishes: (readJson(row.wishes) ?? {}) as PlanWishes,
      libraryVersion: row.library_version,
      lines: readLines(row.lines),
      notes: row.notes,
    })),
    plan => plan.carId,
  );
};

/**
 * Saves a plan of care in place of an earlier one of its kind. Hours are kept to the minute, shares to the
 * thousandth.
 */
export const saveCarePlan = async (trx: Transaction<Schema>, plan: CarePlan): Promise<void> => {
  const { hours, cost } = plan;
  const values = {
    minutes_low: Math.round(hours.low * 60),
    minutes_likely: Math.round(hours.likely * 60),
    minutes_high: Math.round(hours.high * 60),
    low_minor: Math.round(cost.low),
    likely_minor: Math.round(cost.likely),
    high_minor: Math.round(cost.high),
    spoil_permille: Math.round(plan.spoilChance * 1000),
    spoiled_share_permille: Math.round(plan.spoiledShare * 1000),
    wishes: JSON.stringify(plan.wishes),
    library_version: plan.libraryVersion,
    lines: JSON.stringify(plan.lines),
    notes: plan.notes,
  };
  await trx
    .insertInto('care_plan')
    .values({ car_id: plan.carId, kind: plan.kind, ...values })
    .onConflict(conflict => conflict.columns(['car_id', 'kind']).doUpdateSet(values))
    .execute();
};

/** Removes a car's plan of a kind of care; the one made from the car then stands in. */
export const removeCarePlan = async (
  trx: Transaction<Schema>,
  carId: number,
  kind: CareKind,
): Promise<void> => {
  await trx.deleteFrom('care_plan').where('car_id', '=', carId).where('kind', '=', kind).execute();
};

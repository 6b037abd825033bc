import type { Kysely } from 'kysely';
import type { Subject } from '../../valuation/types.ts';
import { type CarRecord, carCandidates } from '../records/cars.ts';
import { latestParts } from '../records/condition-checks.ts';
import { readDecisions } from '../records/decisions.ts';
import { readPlans } from '../records/plans.ts';
import type { Schema } from '../schema.ts';

const guards = ['keep-grade', 'rarity'] as const;

/**
 * The cars as the engine takes them: identity, grade, the parts of the newest check, the owner's own plan (null where
 * there is none), own worths, and the guards that a recorded decision overrules. `whole` says that these are all the
 * collection's cars, which is read faster than one by one.
 */
export const readSubjects = async (
  db: Kysely<Schema>,
  cars: CarRecord[],
  whole: boolean,
): Promise<Subject[]> => {
  const ids = whole ? undefined : cars.map(car => car.id);
  const candidates = await carCandidates(db, ids);
  const parts = await latestParts(db, ids);
  const plans = await readPlans(db, ids);
  const decisions = await readDecisions(db, ids);
  return cars.map(car => {
    const plan = plans.get(car.id);
    const decision = decisions.get(car.id);
    const overruled = guards
      .filter(guard => decision?.overruled.includes(guard))
      .map(guard => ({ guard, reason: decision?.reason ?? '' }));
    return {
      id: car.id,
      castingId: car.castingId,
      variationId: car.variationId,
      candidates: car.variationId === null ? (candidates.get(car.id) ?? []) : [],
      grade: car.grade,
      finishState: car.finishState,
      parts: parts.get(car.id) ?? [],
      plan: plan
        ? {
            targetGrade: plan.targetGrade,
            kind: plan.kind,
            deviations: plan.deviations,
            lines: plan.lines,
            hours: plan.hours,
            spoilChance: plan.spoilChance,
            spoiledShare: plan.spoiledShare,
            partsAfter: plan.partsAfter,
          }
        : null,
      ownWorth: car.ownWorth,
      ...(overruled.length > 0 && { overruled }),
    };
  });
};

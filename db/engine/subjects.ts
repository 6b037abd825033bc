import type { Kysely } from 'kysely';
import type { PartState, Subject } from '../../valuation/types.ts';
import { standingWork } from '../../valuation/wording/cars/disclosure-work.ts';
import { unlessMany } from '../codec.ts';
import { type FinishedWork, listFinishedWork } from '../records/bench/finished-work.ts';
import { type CarRecord, carCandidates } from '../records/cars/cars.ts';
import { latestParts } from '../records/cars/condition-checks.ts';
import { readDecisions, type StoredDecision } from '../records/decisions/decisions.ts';
import { type CarePlan, readCarePlans } from '../records/plans/care-plans.ts';
import { readPlans, type StoredPlan } from '../records/plans/plans.ts';
import { hasOpenFinish } from '../records/unread.ts';
import type { Schema } from '../schema.ts';
import { readWorkedFrom, type WorkedFrom } from './specifications.ts';

/** No work on a car changes what it came in. */
const withPackagingOf = (after: PartState[], found: readonly PartState[]): PartState[] => {
  const packaging = found.find(({ part }) => part === 'packaging');
  return packaging && !after.some(({ part }) => part === 'packaging') ? [...after, packaging] : after;
};

/** What the owner's own plans of care take. */
const careOf = (plans: readonly CarePlan[] | undefined): Pick<Subject, 'care'> =>
  plans
    ? {
        care: Object.fromEntries(
          plans.map(({ kind, hours, cost, spoilChance, spoiledShare }) => [
            kind,
            { hours, cost, spoilChance, spoiledShare },
          ]),
        ),
      }
    : {};

const guards = ['keep-grade', 'rarity'] as const;

/** What hangs on cars and counts for the engine, by car id. */
export interface Hanging {
  candidates: Map<number, number[]>;
  parts: Map<number, PartState[]>;
  plans: Map<number, StoredPlan>;
  care: Map<number, CarePlan[]>;
  decisions: Map<number, StoredDecision>;
  workedFrom: Map<number, WorkedFrom>;
  works: Map<number, FinishedWork[]>;
}

/** Reads what hangs on the cars. */
export const readHanging = async (db: Kysely<Schema>, cars: CarRecord[]): Promise<Hanging> => {
  const ids = unlessMany(cars.map(car => car.id));
  return {
    candidates: await carCandidates(db, ids),
    parts: await latestParts(db, ids),
    plans: await readPlans(db, ids),
    care: await readCarePlans(db, ids),
    decisions: await readDecisions(db, ids),
    workedFrom: await readWorkedFrom(db, cars),
    works: await listFinishedWork(db, ids),
  };
};

/** `subjectsOf`, reading what hangs on the cars. */
export const readSubjects = async (db: Kysely<Schema>, cars: CarRecord[]): Promise<Subject[]> =>
  subjectsOf(cars, await readHanging(db, cars));

/**
 * The cars as the engine takes them: identity, grade, the parts of the newest check, what the
 * factory made, the owner's own plan (null where there is none), own values, and the guards that a
 * recorded decision overrules.
 */
export const subjectsOf = (
  cars: CarRecord[],
  { candidates, parts, plans, care, decisions, workedFrom, works }: Hanging,
): Subject[] =>
  cars.map(car => {
    const plan = plans.get(car.id);
    const decision = decisions.get(car.id);
    const overruled = guards
      .filter(guard => decision?.overruled.includes(guard))
      .map(guard => ({ guard, reason: decision?.reason ?? '' }));
    const isOpen = hasOpenFinish(car.unread);
    const departures = standingWork(works.get(car.id) ?? [])?.departures ?? [];
    return {
      id: car.id,
      castingId: isOpen ? null : car.castingId,
      variationId: isOpen ? null : car.variationId,
      candidates: car.variationId === null && !isOpen ? (candidates.get(car.id) ?? []) : [],
      grade: car.grade,
      finishState: car.finishState,
      parts: parts.get(car.id) ?? [],
      ...(departures.length > 0 && { departures }),
      plan: plan
        ? {
            targetGrade: plan.targetGrade,
            kind: plan.kind,
            deviations: plan.deviations,
            lines: plan.lines,
            hours: plan.hours,
            spoilChance: plan.spoilChance,
            spoiledShare: plan.spoiledShare,
            partsAfter: withPackagingOf(plan.partsAfter, parts.get(car.id) ?? []),
            ...(plan.closure && { closure: plan.closure }),
          }
        : null,
      ...careOf(care.get(car.id)),
      ...workedFrom.get(car.id),
      ownWorth: car.ownWorth,
      ...(overruled.length > 0 && { overruled }),
    };
  });

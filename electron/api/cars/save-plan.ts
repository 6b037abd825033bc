import type { Transaction } from 'kysely';
import { saveCarePlan } from '../../../db/records/plans/care-plans.ts';
import { readMadeOf, readPlans, type StoredPlan, savePlan } from '../../../db/records/plans/plans.ts';
import type { Schema } from '../../../db/schema.ts';
import type { PlanWishes } from '../../../valuation/index.ts';
import { deviationOfColour, paintsCar, type WorkKind } from '../../../valuation/words.ts';
import { colourStanding } from '../reference/colour-standing.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { carPlan } from './car-plan.ts';
import { findCar } from './find-car.ts';
import { storedPlan } from './stored-plan.ts';

/** Writes within an action. */
export type Write = (trx: Transaction<Schema>) => Promise<void>;

/**
 * Makes a plan of steps as its owner wishes it, and returns what saves it as the car's own, with the version
 * of the steps that it is made of.
 */
export const planToSave = async (
  session: Session,
  {
    carId,
    kind,
    wishes: wanted,
    notes,
  }: { carId: number; kind: WorkKind; wishes: PlanWishes; notes: string },
): Promise<Write> => {
  const { plan, wishes, libraryVersion } = await carPlan(session, { carId, kind, wishes: wanted });
  if (!paintsCar(kind)) {
    const { lines, hours, cost, spoilChance, spoiledShare } = plan;
    return trx =>
      saveCarePlan(trx, {
        carId,
        kind,
        hours,
        cost,
        spoilChance,
        spoiledShare,
        wishes,
        libraryVersion,
        lines,
        notes,
      });
  }
  return trx => savePlan(trx, storedPlan(plan, { carId, notes, wishes, libraryVersion }));
};

/**
 * What saves the plan of a car with the colour that it is to wear, as a departure where it is not the car's
 * own: the plan that it has, of steps or in figures, or the one made from it.
 */
export const planInColour = async (
  session: Session,
  { carId, kind, colour }: { carId: number; kind: 'restore' | 'customise'; colour: string },
): Promise<Write> => {
  const { db } = openOf(session).read;
  const stored = (await readPlans(db, [carId])).get(carId);
  const made = await readMadeOf(db, carId);
  if (stored?.kind === kind && !made) {
    const standing = colourStanding(await referenceIndex(session), await findCar(db, carId), colour);
    const others = stored.deviations.filter(one => one !== deviationOfColour);
    const plan: StoredPlan = {
      ...stored,
      deviations: standing === 'own' ? others : [...others, deviationOfColour],
    };
    return trx => savePlan(trx, plan);
  }
  const { wishes, notes } = await carPlan(session, { carId, kind });
  return planToSave(session, { carId, kind, wishes: { ...wishes, colour }, notes });
};

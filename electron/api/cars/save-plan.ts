import type { Transaction } from 'kysely';
import { saveCarePlan } from '../../../db/records/plans/care-plans.ts';
import { readMadeOf, readPlans, type StoredPlan, savePlan } from '../../../db/records/plans/plans.ts';
import type { Schema } from '../../../db/schema.ts';
import { type PlanWishes, restorationPlanOf, type ThreePoint } from '../../../valuation/index.ts';
import { deviationOfColour, paintsCar, type WorkKind } from '../../../valuation/words.ts';
import { colourStanding } from '../reference/colour-standing.ts';
import { referenceIndex } from '../reference/reference-index.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { carPlan } from './car-plan.ts';
import { findCar } from './find-car.ts';

/** Writes within an action. */
export type Write = (trx: Transaction<Schema>) => Promise<void>;

const whole = ({ low, likely, high }: ThreePoint): ThreePoint => ({
  low: Math.round(low),
  likely: Math.round(likely),
  high: Math.round(high),
});

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
  const { lines } = plan;
  if (!paintsCar(kind)) {
    const { hours, cost, spoilChance, spoiledShare } = plan;
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
  const made = restorationPlanOf(plan);
  return trx =>
    savePlan(trx, {
      ...made,
      lines: made.lines.map(line => ({ ...line, cost: whole(line.cost) })),
      carId,
      notes,
      made: { wishes, libraryVersion, lines },
    });
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

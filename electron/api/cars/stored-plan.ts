import type { StoredPlan } from '../../../db/records/plans/plans.ts';
import {
  type PlanWishes,
  restorationPlanOf,
  type ThreePoint,
  type WorkPlan,
} from '../../../valuation/index.ts';

const whole = ({ low, likely, high }: ThreePoint): ThreePoint => ({
  low: Math.round(low),
  likely: Math.round(likely),
  high: Math.round(high),
});

/**
 * A plan of painting that was made from a car, as it is saved: in whole minor units, with the wishes and the
 * version of the steps of which it was made. Throws RangeError for a plan of another kind.
 */
export const storedPlan = (
  plan: WorkPlan,
  {
    carId,
    notes,
    wishes,
    libraryVersion,
  }: { carId: number; notes: string; wishes: PlanWishes; libraryVersion: number },
): StoredPlan => {
  const made = restorationPlanOf(plan);
  return {
    ...made,
    lines: made.lines.map(line => ({ ...line, cost: whole(line.cost) })),
    carId,
    notes,
    made: { wishes, libraryVersion, lines: plan.lines },
  };
};

import { checkFinite } from '../statistics/check-input.ts';
import type { AssumptionSet, PartState, RestorationPlan, Subject } from '../types.ts';
import { deviationOfOpening } from '../words.ts';
import { planFromCar, restorationPlanOf } from '../work/plan-from-car.ts';

/**
 * The plan that stands in for a car without one: the assumption set's usual hours, materials and target, and
 * a reproduction bought for each part that the car has lost. The paint itself is not a part to buy. The
 * closure shows that it was opened, also where an older assumption set does not say so.
 */
export const standardPlan = (
  subject: Subject,
  assumptions: AssumptionSet,
  kind: RestorationPlan['kind'] = 'restore',
): RestorationPlan => {
  const defaults = assumptions.standardPlan[kind];
  checkFinite(defaults.targetGrade, 'target grade of the standard plan');
  const partsAfter: PartState[] = [];
  const lines = [...defaults.lines];
  for (const { part, originality } of subject.parts) {
    if (part === 'body finish' || originality === 'original') continue;
    if (originality !== 'missing') {
      partsAfter.push({ part, grade: null, originality });
      continue;
    }
    partsAfter.push({ part, grade: null, originality: 'reproduction' });
    lines.push({
      name: `Reproduction ${part}`,
      kind: 'part',
      cost: assumptions.standardPlan.replacedPart,
    });
  }
  return {
    targetGrade: defaults.targetGrade,
    kind,
    deviations: [...new Set([...defaults.deviations, deviationOfOpening])],
    lines,
    hours: defaults.hours,
    spoilChance: defaults.spoilChance,
    spoiledShare: defaults.spoiledShare,
    partsAfter,
  };
};

/**
 * The plan by which a car without one of its own is judged: made from the car, or the standard plan, as the
 * assumptions say. Throws RangeError where either does.
 */
export const proposedPlan = (
  subject: Subject,
  assumptions: AssumptionSet,
  kind: RestorationPlan['kind'] = 'restore',
): RestorationPlan =>
  assumptions.work.plansFrom === 'car'
    ? restorationPlanOf(planFromCar(subject, assumptions, kind))
    : standardPlan(subject, assumptions, kind);

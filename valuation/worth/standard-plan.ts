import { withPackaging } from '../market/packaging-gain.ts';
import { checkFinite } from '../statistics/check-input.ts';
import type { AssumptionSet, PartState, RestorationPlan, Subject, WorkPlan } from '../types.ts';
import { deviationOfOpening, type WorkKind } from '../words.ts';
import type { PlanGround } from '../work/car-state.ts';
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
    if (part === 'body finish' || part === 'packaging' || originality === 'original') continue;
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
    partsAfter: withPackaging(partsAfter, subject.parts),
  };
};

/**
 * Each fact of a car that a plan is made from, as text; one that is added to them does not compile until it
 * stands here.
 */
const told: { [Fact in keyof Required<PlanGround>]: (car: PlanGround) => string } = {
  grade: ({ grade }) => `${grade}`,
  finishState: ({ finishState }) => finishState,
  parts: ({ parts }) =>
    parts.map(({ part, grade, originality }) => `${part} ${grade} ${originality}`).join('|'),
  spec: ({ spec }) => (spec ? JSON.stringify(spec) : ''),
  shelf: ({ shelf }) => (shelf && shelf.length > 0 ? JSON.stringify(shelf) : ''),
};
const tellers = Object.values(told);

/** Cars alike in what a plan is made from have the same plan. */
const signature = (car: PlanGround, kind: WorkKind): string => {
  let text: string = kind;
  for (const tell of tellers) text += `\n${tell(car)}`;
  return text;
};

/** Plans held for each set of assumptions. */
const maxPlans = 5000;
const held = new WeakMap<AssumptionSet, Map<string, WorkPlan>>();
const asPlans = new WeakMap<WorkPlan, RestorationPlan>();

/**
 * The plan made from a car without its owner's wishes, made once for all that are alike; the same input gives
 * the same object. Throws RangeError where `planFromCar` does.
 */
export const madePlan = (subject: Subject, assumptions: AssumptionSet, kind: WorkKind): WorkPlan => {
  let plans = held.get(assumptions);
  if (!plans) {
    plans = new Map();
    held.set(assumptions, plans);
  }
  const key = signature(subject, kind);
  const known = plans.get(key);
  if (known) return known;
  const plan = planFromCar(subject, assumptions, kind);
  if (plans.size >= maxPlans) plans.delete(plans.keys().next().value!);
  plans.set(key, plan);
  return plan;
};

/** What conserving a car, or using it for its parts, takes. */
export const carefulPlan = (
  subject: Subject,
  assumptions: AssumptionSet,
  kind: 'conserve' | 'donor',
): WorkPlan => madePlan(subject, assumptions, kind);

/**
 * The plan by which a car without one of its own is judged: made from the car, or the standard plan, as the
 * assumptions say. Throws RangeError where either does.
 */
export const proposedPlan = (
  subject: Subject,
  assumptions: AssumptionSet,
  kind: RestorationPlan['kind'] = 'restore',
): RestorationPlan => {
  if (assumptions.work.plansFrom !== 'car') return standardPlan(subject, assumptions, kind);
  const plan = madePlan(subject, assumptions, kind);
  const known = asPlans.get(plan);
  if (known) return known;
  const made = restorationPlanOf(plan);
  asPlans.set(plan, made);
  return made;
};

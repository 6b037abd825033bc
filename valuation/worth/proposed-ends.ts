import type { AssumptionSet, Fidelity, RestorationPlan, Subject } from '../types.ts';
import { type PossibleEnd, plannedConditions } from './car-worths.ts';
import { planFidelity } from './fidelity.ts';
import { proposedPlan } from './standard-plan.ts';

/** A plan by which a car is judged, and what follows from the plan alone. */
export interface JudgedPlan {
  plan: RestorationPlan;
  /** The conditions in which it can end, the best first. */
  ends: readonly PossibleEnd[];
  fidelity: Fidelity;
}

const judged = (plan: RestorationPlan, assumptions: AssumptionSet): JudgedPlan => ({
  plan,
  ends: plannedConditions(plan, assumptions),
  fidelity: planFidelity(plan, assumptions.deviationLoss),
});

/** A plan that is made from a car is one object for all cars that are alike, under one set of assumptions. */
const made = new WeakMap<RestorationPlan, JudgedPlan>();

/** The proposed plan of a car; the same object for cars that are alike. Throws RangeError where `proposedPlan` does. */
export const judgedProposal = (
  subject: Subject,
  assumptions: AssumptionSet,
  kind: RestorationPlan['kind'] = 'restore',
): JudgedPlan => {
  const plan = proposedPlan(subject, assumptions, kind);
  if (assumptions.work.plansFrom !== 'car') return judged(plan, assumptions);
  const known = made.get(plan);
  if (known) return known;
  const found = judged(plan, assumptions);
  made.set(plan, found);
  return found;
};

/** The car's own plan, else the proposed one. */
export const judgedPlan = (subject: Subject, assumptions: AssumptionSet): JudgedPlan =>
  subject.plan ? judged(subject.plan, assumptions) : judgedProposal(subject, assumptions);

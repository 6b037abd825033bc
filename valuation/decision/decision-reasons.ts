import type { Decision, Evidence, Fidelity, OptionResult, Reason } from '../types.ts';
import type { Option } from '../words.ts';

export interface ReasonsInput {
  decision: Pick<Decision, 'recommendation' | 'best' | 'breakEven' | 'options'>;
  /** The option that the plan (or the standard plan) stands for. */
  planned: 'restore' | 'customise';
  ownPlan: boolean;
  /** Where a car without a plan of its own has one from. */
  plansFrom: 'car' | 'standard';
  evidence: Evidence;
  fidelity: Fidelity;
  /** The owner's own figure stands in for evidence. */
  own: boolean;
  /** No sale of a car in the state that the plan leads to is known. */
  unsold: boolean;
  leastGain: number;
  leastProbability: number;
  fees: number;
}

/**
 * The reasons for a recommendation, the weightiest first. Amounts are in minor units of
 * the reporting currency.
 */
export const decisionReasons = (input: ReasonsInput): Reason[] => {
  const { decision, planned, leastGain, leastProbability, fees } = input;
  const reasons: Reason[] = [];
  const result = (option: Option): OptionResult | undefined =>
    decision.options.find(o => o.option === option);
  const compare = ({ option, expectedGain, probability, cost }: OptionResult) =>
    reasons.push({ kind: 'gain', option, expectedGain, cost, afterFees: fees > 0, probability });
  const plan = result(planned)!;
  const recommended = decision.recommendation as Option;
  if (recommended !== 'leave') compare(result(recommended)!);
  for (const guard of plan.guards) reasons.push({ kind: 'guard', guard });
  if (recommended !== planned && (recommended === 'leave' || plan.guards.length === 0)) compare(plan);
  if (recommended === 'leave') {
    const best = decision.best === 'leave' ? undefined : result(decision.best);
    if (best && best.option !== planned) compare(best);
    if (!best) reasons.push({ kind: 'nothing-pays' });
    else if (best.expectedGain < leastGain) reasons.push({ kind: 'under-least-gain', leastGain });
    else reasons.push({ kind: 'under-least-probability', leastProbability });
  }
  if (decision.breakEven) {
    const { restoredWorth: worth, cost } = decision.breakEven;
    reasons.push({ kind: 'break-even', option: planned, recommended: recommended === planned, worth, cost });
  }
  if (input.unsold)
    reasons.push({ kind: 'no-sale-of-state', state: planned === 'restore' ? 'restored' : 'customised' });
  if (!input.ownPlan) reasons.push({ kind: input.plansFrom === 'car' ? 'plan-from-car' : 'standard-plan' });
  const { deviations } = input.fidelity;
  if (deviations.length > 0) reasons.push({ kind: 'deviations', deviations });
  reasons.push(input.own ? { kind: 'own-figure' } : { kind: 'evidence', evidence: input.evidence });
  return reasons;
};

import {
  betaPert,
  type CarRecommendation,
  type FittedMarket,
  type Help,
  proposedPlan,
  type RestorationPlan,
  rankedOptions,
  type Subject,
  turnsOn,
} from '../../../valuation/index.ts';
import type { DecisionSummary } from '../views.ts';

/**
 * What a car's plan takes of the owner: expected hours at the bench and cash, and the scarce parts by name.
 */
export const planUse = (plan: RestorationPlan): Pick<DecisionSummary, 'hours' | 'cash' | 'parts'> => {
  const mean = ({ low, likely, high }: RestorationPlan['hours']) => betaPert(low, likely, high).mean;
  const parts: Record<string, number> = {};
  for (const line of plan.lines)
    if (line.part !== undefined) parts[line.part] = (parts[line.part] ?? 0) + (line.quantity ?? 1);
  return {
    hours: mean(plan.hours),
    cash: Math.round(plan.lines.reduce((sum, line) => sum + mean(line.cost), 0)),
    parts,
  };
};

/** The plan by which a car is judged: the owner's own, or the one proposed for it. */
export const planOf = (fitted: FittedMarket, subject: Subject): RestorationPlan =>
  subject.plan ?? proposedPlan(subject, fitted.assumptions);

/** A car's decision in short, from the options as they were weighed. */
export const decisionSummary = (
  fitted: FittedMarket,
  subject: Subject,
  recommended: CarRecommendation,
  help: readonly Help[],
): Omit<DecisionSummary, 'car'> => {
  const { recommendation, plan, options, guards } = recommended;
  return {
    shown: options.find(({ option }) => option === recommendation) ?? rankedOptions(options)[0] ?? null,
    plan: plan && { ...plan, guards: guards.filter(guard => !guard.overruled) },
    ...planUse(planOf(fitted, subject)),
    turnsOn: turnsOn(fitted, recommended, help),
  };
};

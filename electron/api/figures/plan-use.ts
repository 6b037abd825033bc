import {
  betaPert,
  type FittedMarket,
  type RestorationPlan,
  type Subject,
  standardPlan,
} from '../../../valuation/index.ts';
import type { WeighedCar } from '../views.ts';

/** What a car's plan takes of the owner: expected hours at the bench and cash, and the scarce parts by name. */
export const planUse = (plan: RestorationPlan): Pick<WeighedCar, 'hours' | 'cash' | 'parts'> => {
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

/** The plan by which a car is judged: the owner's own, or the standard one. */
export const planOf = (fitted: FittedMarket, subject: Subject): RestorationPlan =>
  subject.plan ?? standardPlan(subject, fitted.assumptions);

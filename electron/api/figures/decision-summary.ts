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
import type { DecisionSummary, SeasonOffer } from '../views.ts';

/** The scarce parts that a plan takes, by name. */
const partsOf = (plan: RestorationPlan): Record<string, number> => {
  const parts: Record<string, number> = {};
  for (const line of plan.lines)
    if (line.part !== undefined) parts[line.part] = (parts[line.part] ?? 0) + (line.quantity ?? 1);
  return parts;
};

/**
 * What a car's plan takes of the owner: expected hours at the bench and cash, and the scarce parts by name.
 */
export const planUse = (plan: RestorationPlan): Pick<SeasonOffer, 'hours' | 'cash' | 'parts'> => {
  const mean = ({ low, likely, high }: RestorationPlan['hours']) => betaPert(low, likely, high).mean;
  return {
    hours: mean(plan.hours),
    cash: Math.round(plan.lines.reduce((sum, line) => sum + mean(line.cost), 0)),
    parts: partsOf(plan),
  };
};

/** The plan by which a car is judged: the owner's own, or the one proposed for it. */
export const planOf = (fitted: FittedMarket, subject: Subject): RestorationPlan =>
  subject.plan ?? proposedPlan(subject, fitted.assumptions);

/**
 * All that can be done with a car in a season, each with what it gains and takes; nothing where there is not
 * enough evidence. Customising is among it only where its owner has planned it.
 */
export const offersOf = (
  fitted: FittedMarket,
  subject: Subject,
  { options }: CarRecommendation,
): SeasonOffer[] =>
  options.flatMap(({ option, expectedGain, hours, cash, guarded, passes }): SeasonOffer[] => {
    if (option === 'leave') return [];
    const paints = option === 'restore' || option === 'customise';
    if (option === 'customise' && subject.plan?.kind !== option) return [];
    const plan = !paints
      ? null
      : subject.plan?.kind === option
        ? subject.plan
        : proposedPlan(subject, fitted.assumptions, option);
    return [
      {
        option,
        gain: expectedGain,
        hours,
        cash,
        parts: plan ? partsOf(plan) : {},
        passes,
        guarded,
      },
    ];
  });

/** A car's decision in short, from the options as they were weighed. */
export const decisionSummary = (
  fitted: FittedMarket,
  subject: Subject,
  recommended: CarRecommendation,
  help: readonly Help[],
): Omit<DecisionSummary, 'car' | 'onBench'> => {
  const { recommendation, plan, options, guards } = recommended;
  return {
    shown: options.find(({ option }) => option === recommendation) ?? rankedOptions(options)[0] ?? null,
    plan: plan && {
      option: plan.option,
      own: subject.plan !== null,
      guards: guards.filter(guard => !guard.overruled),
    },
    offers: offersOf(fitted, subject, recommended),
    turnsOn: turnsOn(fitted, recommended, help),
  };
};

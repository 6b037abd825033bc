import type { FittedMarket } from '../market/fitted-market.ts';
import type { Decision, OptionResult, Range, Subject, Valuation, Worth } from '../types.ts';
import { finishStates } from '../words.ts';
import { valueCar } from '../worth/value-car.ts';
import { breakEven } from './break-even.ts';
import { decisionReasons } from './decision-reasons.ts';
import { standsAgainst } from './guards.ts';
import { gainPerHour, weighOptions } from './recommend-car.ts';
import { tornado } from './tornado.ts';
import { gainRange } from './weigh-option.ts';

const nothing: Range = { low: 0, mid: 0, high: 0 };
const rangeOf = ({ low, mid, high }: Worth): Range => ({ low, mid, high });

const undecided = (valuation: Valuation): Decision => ({
  id: valuation.id,
  recommendation: 'not-enough-evidence',
  expectedGain: 0,
  probability: 0,
  cost: nothing,
  options: [],
  best: 'leave',
  reasons: [
    { kind: 'not-enough-evidence' },
    ...valuation.help.map(help => ({ kind: 'help' as const, help })),
  ],
  breakEven: null,
  tornado: [],
});

/**
 * What to do with a car: leave, conserve, restore, customise, or use as a donor, compared by expected net
 * gain over leaving, its range, and the probability that it beats leaving, in minor units of the reporting
 * currency. Recommended is the option with the highest expected gain that no guard stands against and that
 * passes the owner's floors; customising only where the owner has planned it. A car without a plan is judged
 * by one made from the car, or by the standard plan, as the assumptions say.
 *
 * When the answer is leave, `expectedGain`, `probability` and `cost` are those of the best option considered;
 * where that too is leave, gain and probability are 0 and the cost is that of the plan. Break-even is null
 * where a guard stands against the plan. The same input gives the same answer. Throws RangeError on a plan
 * with costs out of order, a bad grade or chance.
 */
export const decideCar = (
  fitted: FittedMarket,
  subject: Subject,
  valuation: Valuation = valueCar(fitted, subject),
): Decision => {
  const weighed = weighOptions(fitted, subject, valuation);
  if (!weighed) return undecided(valuation);
  const { considered, scores, recommended, best, shown } = weighed;
  const { decision: floors } = fitted.assumptions;
  const found = considered[0]!.found;
  const results: OptionResult[] = considered.map((option, i) => ({
    option: option.option,
    cost: option.cost.range,
    worth: rangeOf(option.after),
    expectedGain: Math.round(scores[i]!.expectedGain),
    gain: gainRange(option),
    probability: scores[i]!.probability,
    guards: option.guards,
    hours: option.hours,
    cash: Math.round(option.cash),
    gainPerHour: gainPerHour(scores[i]!.expectedGain, option.hours),
    ...(option.note === null ? {} : { note: option.note }),
  }));
  const plan = considered[weighed.planned]!;
  const others = scores.filter(({ option }) => option !== plan.option);
  const evenAt = standsAgainst(plan.guards) ? null : breakEven(plan, others, floors);
  const shownOption = considered.find(({ option }) => option === shown.option) ?? plan;
  const decided: Omit<Decision, 'reasons'> = {
    id: subject.id,
    recommendation: recommended.option,
    expectedGain: Math.round(shown.expectedGain),
    probability: shown.probability,
    cost: shownOption.cost.range,
    options: [
      {
        option: 'leave',
        cost: nothing,
        worth: rangeOf(found),
        expectedGain: 0,
        gain: nothing,
        probability: 0,
        guards: [],
        hours: 0,
        cash: 0,
        gainPerHour: null,
      },
      ...results,
    ],
    best: best.option,
    breakEven:
      evenAt?.restoredWorth != null && evenAt.cost != null
        ? { restoredWorth: evenAt.restoredWorth, cost: evenAt.cost }
        : null,
    tornado: tornado(plan, considered, floors),
  };
  const planned = subject.plan?.kind ?? 'restore';
  const { stateSales } = fitted.inside.evidence;
  const state = finishStates.indexOf(planned === 'restore' ? 'restored' : 'customised');
  return {
    ...decided,
    reasons: decisionReasons({
      decision: decided,
      planned,
      unsold: stateSales[state] === 0,
      ownPlan: subject.plan !== null,
      plansFrom: fitted.assumptions.work.plansFrom,
      evidence: valuation.evidence,
      fidelity: valuation.fidelity,
      own: found.own,
      leastGain: floors.leastGain,
      leastProbability: floors.leastProbability,
      fees: floors.sellingFees,
    }),
  };
};

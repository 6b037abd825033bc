import type { FittedMarket } from '../market/fitted-market.ts';
import type { Decision, OptionResult, Range, Subject, Valuation, Worth } from '../types.ts';
import { valueCar } from '../worth/value-car.ts';
import { breakEven } from './break-even.ts';
import { type Considered, consideredOptions } from './decision-options.ts';
import { decisionReasons } from './decision-reasons.ts';
import { standsAgainst } from './guards.ts';
import { recommend, weigh } from './recommend.ts';
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
  reasons: ['There is not enough evidence of what it is worth.', ...valuation.help],
  breakEven: null,
  tornado: [],
});

/**
 * What to do with a car: leave, conserve, restore, customise, or use as a donor, compared by expected net gain over leaving, its range, and the
 * probability that it beats leaving, in minor units of the reporting currency. Recommended is the option with the highest expected
 * gain that no guard stands against and that passes the owner's floors; customising only where the owner has planned it. A car without a
 * plan is judged by the standard plan.
 *
 * When the answer is leave, `expectedGain`, `probability` and `cost` are those of the best option considered; where that too is leave,
 * gain and probability are 0 and the cost is that of the plan. Break-even is null where a guard stands against the plan.
 * The same input gives the same answer. Throws RangeError on a plan with costs out of order, a bad grade or chance.
 */
export const decideCar = (
  fitted: FittedMarket,
  subject: Subject,
  valuation: Valuation = valueCar(fitted, subject),
): Decision => {
  const considered = consideredOptions(fitted, subject, valuation);
  if (!considered) return undecided(valuation);
  const { decision: floors } = fitted.assumptions;
  const weighed = considered.map(option => weigh(option, floors));
  const { recommended, best } = recommend(weighed);
  const found = considered[0]!.found;
  const results: OptionResult[] = considered.map((option, i) => ({
    option: option.option,
    cost: option.cost.range,
    worth: rangeOf(option.after),
    expectedGain: Math.round(weighed[i]!.expectedGain),
    gain: gainRange(option),
    probability: weighed[i]!.probability,
    guards: option.guards,
    ...(option.note === null ? {} : { note: option.note }),
  }));
  const planned: Considered['option'] = subject.plan?.kind ?? 'restore';
  const plan = considered.find(({ option }) => option === planned)!;
  const others = weighed.filter(({ option }) => option !== planned);
  const evenAt = standsAgainst(plan.guards) ? null : breakEven(plan, others, floors);
  const shown = recommended.option === 'leave' ? best : recommended;
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
  return {
    ...decided,
    reasons: decisionReasons({
      decision: decided,
      planned,
      ownPlan: subject.plan !== null,
      evidence: valuation.evidence,
      fidelity: valuation.fidelity,
      own: found.own,
      leastGain: floors.leastGain,
      leastProbability: floors.leastProbability,
      fees: floors.sellingFees,
      currency: fitted.reportingCurrency,
    }),
  };
};

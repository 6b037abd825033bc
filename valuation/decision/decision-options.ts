import { gradeStep } from '../market/assumed-curve.ts';
import type { FittedMarket } from '../market/fitted-market.ts';
import { betaPert } from '../statistics/beta-pert.ts';
import type { Guard, RestorationPlan, Subject, ThreePoint, Valuation, Worth } from '../types.ts';
import type { Option } from '../words.ts';
import { onceOn } from '../worth/cached-on.ts';
import {
  type Condition,
  conservedCondition,
  foundCondition,
  type WorthLogs,
  worthOfEnds,
  worthOfLogs,
} from '../worth/car-worths.ts';
import { couplingOf } from '../worth/coupling.ts';
import { judgedPlan, judgedProposal } from '../worth/proposed-ends.ts';
import { carefulPlan } from '../worth/standard-plan.ts';
import { appraiser } from '../worth/value-car.ts';
import { guardsAgainstPaint } from './guards.ts';
import { addCosts, type Cost, planComponents } from './plan-cost.ts';
import { correlationOf, type OptionInputs } from './weigh-option.ts';

export interface ConsideredOption extends OptionInputs {
  option: Exclude<Option, 'leave'>;
  guards: Guard[];
  /** What it is expected to take of the owner's own hours, and of cash besides. */
  hours: number;
  cash: number;
  /**
   * Set where it is only compared and never recommended. A custom car is a matter of taste, and there is no
   * way back from it: the engine does not propose one of its own accord.
   */
  note: 'only-compared' | null;
}

/** Costs of plans that the engine has made, which recur over the cars of a collection. */
const madeCosts = onceOn(() => new WeakMap<object, Cost>());

const costOf = (fitted: FittedMarket, plan: object, made: boolean, components: () => ThreePoint[]): Cost => {
  const held = madeCosts(fitted);
  const found = made ? held.get(plan) : undefined;
  if (found) return found;
  const cost = addCosts(components());
  if (made) held.set(plan, cost);
  return cost;
};

const meanOf = ({ low, likely, high }: ThreePoint): number => betaPert(low, likely, high).mean;
/** The same, where the costs were checked before: added up for the plans of thousands of cars. */
const meanOfLines = (lines: RestorationPlan['lines']): number =>
  lines.reduce((sum, { cost: { low, likely, high } }) => sum + (low + 4 * likely + high) / 6, 0);

/**
 * What is left of a worth for a car kept for its parts: a share of the worth of a complete one at
 * the usual grade.
 */
const donorWorth = (complete: WorthLogs, share: number, found: Condition): Worth =>
  worthOfLogs({
    ...complete,
    said: undefined,
    logMean: complete.logMean + Math.log(Math.max(share, 1e-6)) + found.partsLog,
    attainable: true,
  });

/**
 * The ways to treat a car besides leaving it, each with the worth that it leads to, its cost and its guards:
 * conserve, restore, customise, use as a donor. The car's own plan stands for its kind; the proposed plan for
 * the others. Null where nothing can be valued.
 */
export const consideredOptions = (
  fitted: FittedMarket,
  subject: Subject,
  valuation: Valuation,
): ConsideredOption[] | null => {
  const { assumptions } = fitted;
  const { decision, hourlyRate, standardPlan: usual, work } = assumptions;
  const appraise = appraiser(fitted, subject);
  const { asFound: found, restored } = valuation;
  if (!appraise || !found || !restored) return null;
  const guards = guardsAgainstPaint(fitted, subject);
  const fees = decision.sellingFees;
  const condition = foundCondition(subject, assumptions);
  const couple = couplingOf(fitted, subject, found.own);
  const correlation = (after: Worth, covariance: number) =>
    correlationOf(found, after, covariance, decision.worthCorrelation);
  const own = judgedPlan(subject, assumptions);
  const paint = (kind: RestorationPlan['kind']): ConsideredOption => {
    const isOwn = own.plan.kind === kind;
    const { plan, ends } = isOwn ? own : judgedProposal(subject, assumptions, kind);
    const covariance = ends.reduce((sum, end) => sum + end.share * couple(condition, end.condition), 0);
    const after = isOwn ? restored : worthOfEnds(ends, appraise);
    // Whole objects, here and below: one that is spread together takes several times as long.
    return {
      found,
      fees,
      after,
      correlation: correlation(after, covariance),
      option: kind,
      hours: meanOf(plan.hours),
      cash: meanOfLines(plan.lines),
      cost: costOf(fitted, plan, plan !== subject.plan, () => planComponents(plan, hourlyRate)),
      spoilChance: plan.spoilChance,
      spoiledShare: plan.spoiledShare,
      guards,
      note: kind === 'customise' && !isOwn ? 'only-compared' : null,
    };
  };
  const careful = (option: 'conserve' | 'donor', after: Worth, covariance: number): ConsideredOption => {
    const entered = subject.care?.[option];
    const made = entered ?? (work.plansFrom === 'car' ? carefulPlan(subject, assumptions, option) : null);
    const { hours, cost } = made ?? usual[option];
    return {
      found,
      fees,
      after,
      correlation: correlation(after, covariance),
      option,
      cost: costOf(fitted, made ?? usual[option], !entered, () =>
        planComponents({ hours, lines: [{ name: '', kind: 'material', cost }] }, hourlyRate),
      ),
      hours: meanOf(hours),
      cash: meanOf(cost),
      spoilChance: made?.spoilChance ?? 0,
      spoiledShare: made?.spoiledShare ?? 1,
      guards: [],
      note: null,
    };
  };
  const complete: Condition = {
    state: 'original',
    step: gradeStep(assumptions.unknownGrade),
    gradeKnown: true,
    partsLog: 0,
    fidelityLog: condition.fidelityLog,
    attainable: condition.attainable,
  };
  const conserved = conservedCondition(subject, assumptions);
  const cared =
    subject.finishState === 'original' && valuation.originalFinish
      ? valuation.originalFinish
      : worthOfLogs(appraise(conserved));
  return [
    careful('conserve', cared, couple(condition, conserved)),
    paint('restore'),
    paint('customise'),
    careful(
      'donor',
      donorWorth(appraise(complete), decision.donorShare, condition),
      couple(condition, complete),
    ),
  ];
};

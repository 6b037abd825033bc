import type { AssumptionSet, Subject, ThreePoint, WorkPlan } from '../../../valuation/types.ts';
import { type FinishState, finishStates, type Grade } from '../../../valuation/words.ts';
import { restorationPlanOf } from '../../../valuation/work/plan-from-car.ts';
import { planFidelity } from '../../../valuation/worth/fidelity.ts';
import type { Random } from '../random.ts';
import type { MarketTruth } from './market-simulator.ts';

/**
 * How work turns out in the judged markets: points short of the aim and how often. Its own truth, drawn apart
 * from what the assumption set supposes; hours and cost are those of the plan made from the car.
 */
export const turnsOut = [
  { short: 0, share: 0.3 },
  { short: 0.5, share: 0.3 },
  { short: 1.5, share: 0.25 },
  { short: 2.5, share: 0.1 },
  { short: 4, share: 0.05 },
];

/** What an hour of one's own is worth in the judged markets, in cents; the engine is told. */
export const hourlyRate = 300;

const mean = ({ low, likely, high }: ThreePoint) => (low + 4 * likely + high) / 6;

/** The mean cost of a plan, the owner's hours included, in cents. */
export const trueCost = ({ cost, hours }: Pick<WorkPlan, 'cost' | 'hours'>) =>
  mean(cost) + hourlyRate * mean(hours);

/** How a car was found, as often as such cars are. */
export const drawState = (random: Random): FinishState =>
  finishStates[random.pick([0.7, 0.07, 0.14, 0.05, 0.04])]!;

/** A grade about the middle, in half points. */
export const drawGrade = (random: Random, middle: number, spread: number): number =>
  Math.min(10, Math.max(1, Math.round(random.normal(middle, spread) * 2) / 2));

/** A car of a variation, to be judged by gain alone: the guards are the owner's taste, not a forecast. */
export const judgedCar = (
  { id, castingId }: { id: number; castingId: number },
  finishState: FinishState,
  grade: Grade | null,
): Subject => ({
  id,
  castingId,
  variationId: id,
  candidates: [],
  grade,
  finishState,
  parts: [],
  plan: null,
  ownWorth: null,
  overruled: [
    { guard: 'keep-grade', reason: 'judged by gain alone' },
    { guard: 'rarity', reason: 'judged by gain alone' },
  ],
});

/**
 * What work truly gains over leaving the car: its sale restored, or spoilt in so many cases, less that as
 * found, after the fees of selling and the cost of the work.
 */
export const trueGain = (
  truth: MarketTruth,
  { id, grade }: { id: number; grade: Grade },
  plan: WorkPlan,
  { decision, deviationLoss }: Pick<AssumptionSet, 'decision' | 'deviationLoss'>,
): number => {
  const meanAt = (state: FinishState, at: Grade) =>
    Math.exp(truth.logPrice(id, state, at) + truth.noiseAt(at) ** 2 / 2);
  const found = meanAt('original', grade);
  const restored =
    planFidelity(restorationPlanOf(plan), deviationLoss).factor *
    turnsOut.reduce((sum, { short, share }) => sum + share * meanAt('restored', plan.aim - short), 0);
  const { spoilChance: p, spoiledShare } = plan;
  const sold = (1 - p) * restored + p * spoiledShare * found;
  return (1 - decision.sellingFees) * (sold - found) - trueCost(plan);
};

/** How often work truly beats leaving the car, of so many draws of how it turns out and of both sales. */
export const trueChance = (
  truth: MarketTruth,
  { id, grade }: { id: number; grade: Grade },
  plan: WorkPlan,
  { decision, deviationLoss }: Pick<AssumptionSet, 'decision' | 'deviationLoss'>,
  random: Random,
  draws = 400,
): number => {
  const drawn = (state: FinishState, at: Grade) =>
    Math.exp(random.normal(truth.logPrice(id, state, at), truth.noiseAt(at)));
  const { factor } = planFidelity(restorationPlanOf(plan), deviationLoss);
  const cost = trueCost(plan);
  let beats = 0;
  for (let i = 0; i < draws; i++) {
    const found = drawn('original', grade);
    const { short } = turnsOut[random.pick(turnsOut.map(({ share }) => share))]!;
    const spoilt = random.uniform() < plan.spoilChance;
    const after = spoilt ? plan.spoiledShare * found : factor * drawn('restored', plan.aim - short);
    if ((1 - decision.sellingFees) * (after - found) > cost) beats++;
  }
  return beats / draws;
};

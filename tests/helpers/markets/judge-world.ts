import { recommendCar } from '../../../valuation/decision/recommend-car.ts';
import { seasonRange } from '../../../valuation/decision/season-range.ts';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { sumOfCars } from '../../../valuation/lots/sum-of-cars.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { AssumptionSet, Subject } from '../../../valuation/types.ts';
import type { FinishState } from '../../../valuation/words.ts';
import { planFromCar, restorationPlanOf } from '../../../valuation/work/plan-from-car.ts';
import { planFidelity } from '../../../valuation/worth/fidelity.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { seededRandom } from '../random.ts';
import { crpsOfNormal } from './crps.ts';
import type { Promised } from './judge-promises.ts';
import { drawGrade, drawState, hourlyRate, judgedCar, trueCost, trueGain, turnsOut } from './judged-work.ts';
import type { SimulatedMarket } from './market-simulator.ts';
import { referenceOf } from './reference-model.ts';

export interface WorldCar {
  sales: number;
  grade: number;
  state: FinishState;
  ungraded: boolean;
  covered: boolean;
  crps: number;
  /** CRPS of the reference mixed model. */
  reference: number;
  /** Of the median, in logs: ours less the truth. */
  error: number;
}

export interface JudgedWorld {
  cars: WorldCar[];
  sums: { covered: boolean; ofMean: number }[];
  /**
   * The 80 % range of the gain of seasons of up to twenty restorations, and what they gained ÷ its middle.
   */
  seasons: { covered: boolean; ofMid: number }[];
  /** Of all recommended work: what was promised, and what came. */
  promise: Promised;
  /** The same where the assumption set has the workmanship with which the work truly turns out. */
  workKnown: Promised;
  /** Regret of what is recommended (without floors) beside an oracle, and that of the best rule of thumb. */
  regret: number;
  /** The same where the owner's floors are kept. */
  behindFloors: number;
  thumbs: Record<string, number>;
  index: string;
}

/**
 * Values a car of every variation in a world of known truth, sums some of them up, and decides on those in
 * original finish.
 */
export const judgeWorld = (
  { market, truth, on }: SimulatedMarket,
  seed: number,
  changed: Partial<AssumptionSet> = {},
  /** Share of the cars that are not graded, and how many points worse those are. */
  ungraded: { share: number; worse: number } = { share: 0, worse: 0 },
): JudgedWorld => {
  const random = seededRandom(seed * 7907);
  const assumptions: AssumptionSet = { ...defaultAssumptions('USD'), hourlyRate, ...changed };
  const fitted = fitMarket(market, assumptions, on);
  const work = { ...assumptions.work, workmanship: turnsOut };
  const fittedWorkKnown = { ...fitted, assumptions: { ...assumptions, work } };
  const reference = referenceOf(market, on);
  // A source of its own, so that what is recommended changes no car that is drawn.
  const outcomes = seededRandom(seed * 104_729);
  const judged: JudgedWorld = {
    cars: [],
    sums: [],
    seasons: [],
    promise: { of: 0, to: 0 },
    workKnown: { of: 0, to: 0 },
    regret: 0,
    behindFloors: 0,
    thumbs: { leave: 0, 'under C6': 0, 'under C5': 0, 'under C4': 0, all: 0 },
    index: fitted.time.used,
  };
  const held: {
    car: Subject;
    worth: NonNullable<ReturnType<typeof valueCar>['asFound']>;
    realised: number;
  }[] = [];
  const season: { subject: Subject; gain: number }[] = [];
  const { sellingFees, leastGain, leastProbability } = assumptions.decision;
  for (const { id, castingId } of market.variations) {
    const state = drawState(random);
    const drawn = drawGrade(random, 5.5, 2.2);
    const withoutGrade = ungraded.share > 0 && random.uniform() < ungraded.share;
    const grade = withoutGrade ? Math.max(1, drawn - ungraded.worse) : drawn;
    const subject = judgedCar({ id, castingId }, state, withoutGrade ? null : grade);
    const valuation = valueCar(fitted, subject);
    const { asFound } = valuation;
    const log = truth.logPrice(id, state, grade);
    const realised = Math.exp(log + truth.draw(random, grade));
    const plan = planFromCar(subject, assumptions);
    if (!asFound) continue;
    const { plan: planned } = recommendCar(fitted, subject, valuation);
    held.push({ car: subject, worth: asFound, realised });
    const predicted = reference(id, state, subject.grade);
    judged.cars.push({
      sales: truth.salesOf(id),
      grade,
      state,
      ungraded: withoutGrade,
      covered: realised >= asFound.low && realised <= asFound.high,
      crps: crpsOfNormal(asFound.logMean, asFound.logSd, Math.log(realised)),
      reference: crpsOfNormal(predicted.mean, Math.sqrt(predicted.variance), Math.log(realised)),
      error: asFound.logMean - log,
    });
    if (state !== 'original' || withoutGrade) continue;
    const gain = trueGain(truth, { id, grade }, plan, assumptions);
    const best = Math.max(0, gain);
    const does = planned!.expectedGain > 0;
    const passes = planned!.expectedGain >= leastGain && planned!.probability >= leastProbability;
    if (passes) {
      // What it sells for restored, and would have sold for as found: one buyer's humour, in part.
      const one = outcomes.normal(0, 1);
      const other = 0.7 * one + Math.sqrt(1 - 0.7 ** 2) * outcomes.normal(0, 1);
      const { short } = turnsOut[outcomes.pick(turnsOut.map(({ share }) => share))]!;
      const ended = plan.aim - short;
      const { factor } = planFidelity(restorationPlanOf(plan), assumptions.deviationLoss);
      const sold = factor * Math.exp(truth.logPrice(id, 'restored', ended) + truth.noiseAt(ended) * other);
      const spoilt = outcomes.uniform() < plan.spoilChance;
      const wouldHave = Math.exp(log + truth.noiseAt(grade) * one);
      const came = spoilt ? plan.spoiledShare * wouldHave : sold;
      season.push({ subject, gain: (1 - sellingFees) * (came - wouldHave) - trueCost(plan) });
    }
    if (does) {
      judged.promise.of += planned!.expectedGain;
      judged.promise.to += gain;
    }
    const known = recommendCar(fittedWorkKnown, subject).plan!.expectedGain;
    if (known > 0) {
      judged.workKnown.of += known;
      judged.workKnown.to += gain;
    }
    judged.behindFloors += best - (passes ? gain : 0);
    judged.regret += best - (does ? gain : 0);
    judged.thumbs.leave! += best;
    judged.thumbs.all! += best - gain;
    for (const limit of [6, 5, 4]) judged.thumbs[`under C${limit}`]! += best - (grade < limit ? gain : 0);
  }
  for (let from = 0; from + 20 <= season.length && from < 60; from += 20) {
    const some = season.slice(from, from + 20);
    const { low, mid, high } = seasonRange(
      fitted,
      some.map(({ subject }) => ({ subject, option: 'restore' })),
    );
    const gained = some.reduce((sum, { gain }) => sum + gain, 0);
    judged.seasons.push({ covered: gained >= low && gained <= high, ofMid: gained / mid });
  }
  for (const size of [20, 60, held.length])
    for (let from = 0; from + size <= Math.min(held.length, size * 3); from += size) {
      // Every seventh, so that the cars of a sum are not neighbours.
      const group = Array.from({ length: size }, (_, k) => held[((from + k) * 7) % held.length]!);
      if (held.length % 7 === 0 && size > 20) continue;
      const { low, mid, high } = sumOfCars(fitted, group);
      const brought = group.reduce((sum, one) => sum + one.realised, 0);
      judged.sums.push({ covered: brought >= low && brought <= high, ofMean: brought / mid });
    }
  return judged;
};

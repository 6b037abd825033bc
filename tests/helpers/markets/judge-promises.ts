import { recommendCar } from '../../../valuation/decision/recommend-car.ts';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import { planFromCar } from '../../../valuation/work/plan-from-car.ts';
import { seededRandom } from '../random.ts';
import { drawGrade, drawState, hourlyRate, judgedCar, trueGain } from './judged-work.ts';
import { toldTruth, type truths } from './known-truth.ts';
import type { SimulatedMarket } from './market-simulator.ts';

/** Promised of recommended restorations, and what comes of them. */
export interface Promised {
  of: number;
  to: number;
}

/**
 * What the engine promises of the restorations that it recommends in a world, and what truly comes of them,
 * where it is told these pieces of the truth.
 */
export const judgePromises = (
  { market, truth, on }: SimulatedMarket,
  seed: number,
  pieces: readonly (keyof typeof truths)[],
): Promised => {
  const random = seededRandom(seed * 7907);
  const usual = { ...defaultAssumptions('USD'), hourlyRate };
  const assumptions = toldTruth(usual, truth, seed, pieces);
  const fitted = fitMarket(market, assumptions, on);
  const sum: Promised = { of: 0, to: 0 };
  for (const { id, castingId } of market.variations) {
    const state = drawState(random);
    const grade = drawGrade(random, 5.5, 2.2);
    if (state !== 'original') continue;
    const subject = judgedCar({ id, castingId }, state, grade);
    const { plan } = recommendCar(fitted, subject);
    if (!plan || plan.expectedGain <= 0) continue;
    sum.of += plan.expectedGain;
    sum.to += trueGain(truth, { id, grade }, planFromCar(subject, assumptions), assumptions);
  }
  return sum;
};

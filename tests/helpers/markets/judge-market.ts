import { recommendCar } from '../../../valuation/decision/recommend-car.ts';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import { planFromCar } from '../../../valuation/work/plan-from-car.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { seededRandom } from '../random.ts';
import {
  drawGrade,
  drawState,
  hourlyRate,
  judgedCar,
  trueChance,
  trueGain,
  turnsOut,
} from './judged-work.ts';
import type { SimulatedMarket } from './market-simulator.ts';
import { plainEstimators } from './plain-estimators.ts';

export type Level = '0 sales' | '1–2' | '3+';

export interface JudgedCar {
  level: Level;
  covered: boolean;
  errors: {
    ours: number;
    'own mean': number;
    'casting mean': number;
    'casting dummies': number;
    'variation dummies': number;
  };
}

export interface Judgement {
  cars: JudgedCar[];
  /**
   * What each way of deciding to restore or to leave loses beside an oracle that knows the truth, summed over
   * the cars in original finish. The guards are the owner's taste, not a forecast: they are overruled here.
   * `recommended` counts a car as restored only where no other option is recommended instead, `ours` where
   * restoring passes the floors, `gainFloor` where it passes that of gain, `noFloors` where its expected gain is above
   * nothing. Of `ours`, `wrongly` is what restored cars lose, `byChance` what is left lying by the floor of probability alone.
   * `floors` is what the floors themselves cost whoever knows the truth and keeps to both; `sameFloors` what `ours` loses
   * beside that oracle: cars that truly pass both and are left, and cars restored at a loss.
   */
  /** What was promised of the cars that were restored, and what truly came of it. */
  promised: number;
  came: number;
  regret: Record<
    | 'ours'
    | 'recommended'
    | 'gainFloor'
    | 'noFloors'
    | 'underC6'
    | 'never'
    | 'wrongly'
    | 'byChance'
    | 'floors'
    | 'sameFloors',
    number
  >;
}

const levelOf = (sales: number): Level => (sales === 0 ? '0 sales' : sales <= 2 ? '1–2' : '3+');

/**
 * Draws one car of every variation, values it with the engine and with plain estimators, and decides
 * whether to restore it.
 */
export const judgeMarket = (
  { market, truth, on }: SimulatedMarket,
  index: 'none' | 'trend',
  seed: number,
  plansFrom: 'car' | 'standard' | 'car, work known' = 'car',
): Judgement => {
  const random = seededRandom(seed * 7919);
  const usual = defaultAssumptions('USD');
  // The standard plan as it was before: its aim for certain.
  const certain = [{ short: 0, share: 1 }];
  const work =
    plansFrom === 'standard'
      ? { ...usual.work, plansFrom, workmanship: certain }
      : { ...usual.work, ...(plansFrom === 'car, work known' && { workmanship: turnsOut }) };
  const assumptions = { ...usual, index, hourlyRate, work };
  const fitted = fitMarket(market, assumptions, on);
  const plain = plainEstimators(market, on);
  const cars: JudgedCar[] = [];
  let promised = 0;
  let came = 0;
  const regret: Judgement['regret'] = {
    ours: 0,
    recommended: 0,
    gainFloor: 0,
    noFloors: 0,
    underC6: 0,
    never: 0,
    wrongly: 0,
    byChance: 0,
    floors: 0,
    sameFloors: 0,
  };
  // A source of its own, so that the cars are those that were drawn before.
  const chances = seededRandom(seed * 104_729);
  const { leastGain, leastProbability } = assumptions.decision;
  for (const { id, castingId } of market.variations) {
    const state = drawState(random);
    const grade = drawGrade(random, 5, 1.9);
    const subject = judgedCar({ id, castingId }, state, grade);
    const valuation = valueCar(fitted, subject);
    const { asFound } = valuation;
    if (!asFound) throw new Error(`car ${id} was not valued`);
    const log = truth.logPrice(id, state, grade);
    const realised = Math.exp(random.normal(log, truth.noise));
    const guesses = plain(id, state, grade);
    cars.push({
      level: levelOf(truth.salesOf(id)),
      covered: realised >= asFound.low && realised <= asFound.high,
      errors: {
        ours: Math.abs(asFound.logMean - log),
        'own mean': Math.abs(guesses.ownMean - log),
        'casting mean': Math.abs(guesses.castingMean - log),
        'casting dummies': Math.abs(guesses.castingDummies - log),
        'variation dummies': Math.abs(guesses.variationDummies - log),
      },
    });
    if (state !== 'original') continue;
    // The oracle knows the expected sale of the car as found and restored, over the grades in which the work
    // truly ends, its mean cost and spoiling.
    const { recommendation, plan: planned } = recommendCar(fitted, subject, valuation);
    const plan = planFromCar(subject, usual);
    const gain = trueGain(truth, { id, grade }, plan, usual);
    const best = Math.max(0, gain);
    const gainsEnough = planned!.expectedGain >= leastGain;
    const passes = gainsEnough && planned!.probability >= leastProbability;
    if (passes) {
      promised += planned!.expectedGain;
      came += gain;
    }
    const trulyPasses =
      gain >= leastGain && trueChance(truth, { id, grade }, plan, usual, chances) >= leastProbability;
    regret.floors += best - (trulyPasses ? gain : 0);
    regret.sameFloors += passes ? best - gain : trulyPasses ? gain : 0;
    regret.ours += best - (passes ? gain : 0);
    regret.gainFloor += best - (gainsEnough ? gain : 0);
    if (passes) regret.wrongly += best - gain;
    else if (gainsEnough) regret.byChance += best;
    regret.recommended += best - (recommendation === 'restore' ? gain : 0);
    regret.noFloors += best - (planned!.expectedGain > 0 ? gain : 0);
    regret.underC6 += best - (grade < 6 ? gain : 0);
    regret.never += best;
  }
  return { cars, promised, came, regret };
};

import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { Belief, Market, Purchase, PurchasedCar, Subject } from '../../../valuation/types.ts';
import { type FinishState, finishStates } from '../../../valuation/words.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { seededRandom } from '../random.ts';
import { type SimulatedMarket, simulateMarket } from './market-simulator.ts';

/** What a young collection knows: lots bought, beliefs, sale records. */
export interface YoungWish {
  lots?: number;
  beliefs?: number;
  records?: number;
  /** Beliefs are off by a factor drawn from exp(N(0, error)). */
  error?: number;
  /** Lots bring the sum of their cars' sales times a factor drawn with this standard deviation of its log. */
  lotNoise?: number;
}

interface LotOfCars {
  purchase: Purchase;
  cars: Subject[];
}

/**
 * A young market: its owner's cars in lots, what was believed, and a few records; no other evidence. The same
 * seed gives the same.
 */
export interface YoungMarket {
  market: Market;
  simulated: SimulatedMarket;
  lots: LotOfCars[];
}

const stateShares = [0.7, 0.07, 0.14, 0.05, 0.04];

export const youngMarket = (seed: number, wish: YoungWish): YoungMarket => {
  const simulated = simulateMarket({ seed, drift: 0 });
  const { market: whole, truth } = simulated;
  const random = seededRandom(seed * 104729);
  const castingOf = new Map(whole.variations.map(({ id, castingId }) => [id, castingId]));
  const rarityShare = { common: 1, uncommon: 0.5, scarce: 0.2, rare: 0.06 };
  const drawCar = (id: number): Subject => {
    const at = random.pick(whole.variations.map(({ rarity }) => rarityShare[rarity ?? 'common']));
    const variationId = whole.variations[at]!.id;
    return {
      id,
      castingId: castingOf.get(variationId)!,
      variationId,
      candidates: [],
      grade: Math.min(10, Math.max(1, Math.round(random.normal(5, 1.9) * 2) / 2)),
      finishState: finishStates[random.pick(stateShares)]!,
      parts: [],
      plan: null,
      ownWorth: null,
    };
  };
  let next = 1;
  const lots = Array.from({ length: 14 }, (_, l): LotOfCars => {
    const cars = Array.from({ length: Math.round(random.between(2, 18)) }, () => drawCar(next++));
    const sum = cars.reduce(
      (total, car) =>
        total +
        Math.exp(
          truth.logPrice(car.variationId!, car.finishState, car.grade!) + random.normal(0, truth.noise),
        ),
      0,
    );
    return {
      cars,
      purchase: {
        lotId: l + 1,
        boughtOn: `${2019 + (l % 6)}-0${1 + (l % 9)}-15`,
        currency: 'USD',
        total: Math.round(sum * Math.exp(random.normal(0, wish.lotNoise ?? 0.25))),
        price: null,
        cars: cars.map(
          (car): PurchasedCar => ({
            id: car.id,
            castingId: car.castingId,
            variationId: car.variationId,
            grade: car.grade,
            finishState: car.finishState,
            missingParts: [],
            reproductionParts: [],
          }),
        ),
      },
    };
  });
  const levels = ['series', 'series', 'series', 'casting', 'casting'] as const;
  const common = whole.variations.filter(({ rarity }) => rarity === 'common');
  const beliefs = levels.map((level, b): Belief => {
    const { id, castingId } = common[Math.floor(random.uniform() * common.length)]!;
    const { seriesId } = whole.castings.find(casting => casting.id === castingId)!;
    const grade = 5 + Math.round(random.uniform() * 4);
    const state: FinishState = b === 4 ? 'restored' : 'original';
    const inScope = common.filter(v =>
      level === 'casting'
        ? v.castingId === castingId
        : whole.castings.some(c => c.id === v.castingId && c.seriesId === seriesId),
    );
    const middle =
      inScope.reduce((sum, v) => sum + truth.logPrice(v.id, state, grade), 0) / inScope.length +
      random.normal(0, wish.error ?? 0.25);
    return {
      id: b + 1,
      level,
      of: level === 'casting' ? castingOf.get(id)! : seriesId,
      grade,
      finishState: state,
      low: Math.max(1, Math.round(Math.exp(middle - 0.4))),
      high: Math.max(2, Math.round(Math.exp(middle + 0.4))),
      currency: 'USD',
      believedOn: '2025-01-01',
    };
  });
  const records = [...whole.sales].sort((a, b) => ((a.id * 7919) % 10007) - ((b.id * 7919) % 10007));
  return {
    simulated,
    lots,
    market: {
      ...whole,
      sales: records.slice(0, wish.records ?? 0),
      purchases: lots.slice(0, wish.lots ?? 0).map(({ purchase }) => purchase),
      beliefs: beliefs.slice(0, wish.beliefs ?? 0),
    },
  };
};

export interface JudgedYoung {
  valued: number;
  cars: number;
  covered: boolean[];
  errors: number[];
  /**
   * Of the cars of the lots alone: our error, and that of the lot's price divided by the number of its cars.
   */
  inLots: { ours: number; evenShare: number; covered: boolean }[];
}

/** Values a car of every variation, and the cars of the lots, against what such cars truly bring. */
export const judgeYoung = (seed: number, wish: YoungWish): JudgedYoung => {
  const { market, simulated, lots } = youngMarket(seed, wish);
  const { truth, on } = simulated;
  const random = seededRandom(seed * 7919);
  const fitted = fitMarket(market, defaultAssumptions('USD'), on);
  const judged: JudgedYoung = { valued: 0, cars: 0, covered: [], errors: [], inLots: [] };
  const judge = (subject: Subject) => {
    const { asFound } = valueCar(fitted, subject);
    const log = truth.logPrice(subject.variationId!, subject.finishState, subject.grade!);
    const realised = Math.exp(random.normal(log, truth.noise));
    if (!asFound) return null;
    return {
      covered: realised >= asFound.low && realised <= asFound.high,
      error: Math.abs(asFound.logMean - log),
      log,
    };
  };
  for (const { id, castingId } of market.variations) {
    const judgedCar = judge({
      id,
      castingId,
      variationId: id,
      candidates: [],
      grade: Math.min(10, Math.max(1, Math.round(random.normal(5, 1.9) * 2) / 2)),
      finishState: finishStates[random.pick(stateShares)]!,
      parts: [],
      plan: null,
      ownWorth: null,
    });
    judged.cars++;
    if (!judgedCar) continue;
    judged.valued++;
    judged.covered.push(judgedCar.covered);
    judged.errors.push(judgedCar.error);
  }
  for (const { cars, purchase } of lots.slice(0, wish.lots ?? 0))
    for (const car of cars) {
      const judgedCar = judge(car);
      if (!judgedCar) continue;
      judged.inLots.push({
        ours: judgedCar.error,
        evenShare: Math.abs(Math.log(purchase.total / cars.length) - judgedCar.log),
        covered: judgedCar.covered,
      });
    }
  return judged;
};

/**
 * How long plans take that are made from cars, and the recommendations that rest on them. Run:
 * node tests/bench/plans.ts [cars]
 */
import { recommendCar } from '../../valuation/decision/recommend-car.ts';
import { defaultAssumptions } from '../../valuation/default-assumptions.ts';
import { fitMarket } from '../../valuation/market/fit-market.ts';
import type { Subject } from '../../valuation/types.ts';
import { finishStates, originalities, partNames } from '../../valuation/words.ts';
import { planFromCar } from '../../valuation/work/plan-from-car.ts';
import { simulateMarket } from '../helpers/markets/market-simulator.ts';
import { seededRandom } from '../helpers/random.ts';
import { measured } from './measure.ts';

const count = Number(process.argv[2] ?? 10_000);
const random = seededRandom(5);
const { market, on } = simulateMarket({ seed: 5 });
const assumptions = defaultAssumptions('USD');
const fitted = fitMarket(market, assumptions, on);
const half = () => 1 + Math.floor(random.uniform() * 19) / 2;
const cars: Subject[] = Array.from({ length: count }, (_, id) => {
  const variation = market.variations[id % market.variations.length]!;
  return {
    id,
    castingId: variation.castingId,
    variationId: variation.id,
    candidates: [],
    grade: half(),
    finishState: finishStates[random.pick([0.7, 0.07, 0.14, 0.05, 0.04])]!,
    parts: partNames.slice(0, 8).map(part => ({
      part,
      grade: half(),
      originality: originalities[random.pick([0.8, 0.05, 0.05, 0.1])]!,
    })),
    plan: null,
    ownWorth: null,
  };
});
let start = performance.now();
for (const car of cars) planFromCar(car, assumptions);
measured({ work: `${count} plans`, value: performance.now() - start, unit: 'ms', goal: null });
start = performance.now();
for (const car of cars) recommendCar(fitted, car);
measured({
  work: `${count} recommendations with plans of their own`,
  value: performance.now() - start,
  unit: 'ms',
  goal: null,
});

import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { lotWorth } from '../../../valuation/lots/lot-worth.ts';
import { sumOfCars } from '../../../valuation/lots/sum-of-cars.ts';
import { sumWorths } from '../../../valuation/lots/sum-worths.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { Subject } from '../../../valuation/types.ts';
import { finishStates } from '../../../valuation/words.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { seededRandom } from '../random.ts';
import type { SimulatedMarket } from './market-simulator.ts';

/** A sum of cars held against what they brought together. */
export interface JudgedSum {
  cars: number;
  /** Inside the 80 % range: of `sumOfCars`, and of the mids added up with the width that those had. */
  covered: boolean;
  coveredByMids: boolean;
  /** What they brought, as a factor of the mean of the sum, and of the sum of the mids. */
  ofMean: number;
  ofMids: number;
  /** Whether they brought at least what is 80 % sure. */
  sure: boolean;
  correlation: number;
}

/**
 * Draws collections of 20 and 60 cars and one of all, sells each car once, and judges the range of each sum.
 */
export const judgeSums = ({ market, truth, on }: SimulatedMarket, seed: number): JudgedSum[] => {
  const random = seededRandom(seed * 6101);
  const fitted = fitMarket(market, defaultAssumptions('USD'), on);
  const cars = market.variations.flatMap(({ id, castingId }) => {
    const subject: Subject = {
      id,
      castingId,
      variationId: id,
      candidates: [],
      grade: Math.min(10, Math.max(1, Math.round(random.normal(5, 1.9) * 2) / 2)),
      finishState: finishStates[random.pick([0.7, 0.07, 0.14, 0.05, 0.04])]!,
      parts: [],
      plan: null,
      ownWorth: null,
    };
    const worth = valueCar(fitted, subject).asFound;
    const log = truth.logPrice(id, subject.finishState, subject.grade!);
    const realised = Math.exp(random.normal(log, truth.noise));
    return worth ? [{ car: subject, worth, realised, at: random.uniform() }] : [];
  });
  const shuffled = cars.toSorted((a, b) => a.at - b.at);
  const groups = [
    shuffled,
    ...[20, 60].flatMap(size => [0, 1, 2].map(k => shuffled.slice(k * size, (k + 1) * size))),
  ];
  return groups
    .filter(group => group.length > 10)
    .map((group): JudgedSum => {
      const realised = group.reduce((sum, one) => sum + one.realised, 0);
      const { low, mid, high, correlation } = sumOfCars(fitted, group);
      const worths = group.map(({ worth }) => worth);
      const mids = sumWorths(worths);
      return {
        cars: group.length,
        covered: realised >= low && realised <= high,
        coveredByMids: realised >= mids.low && realised <= mids.high,
        ofMean: realised / mid,
        ofMids: realised / mids.mid,
        sure: realised >= lotWorth(worths, correlation).quantile(0.2),
        correlation,
      };
    });
};

import { beforeAll, describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { partOfSum, sharedCorrelation, sumOfCars, sumOfParts } from '../../../valuation/lots/sum-of-cars.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import { sharedFactors } from '../../../valuation/worth/shared-factors.ts';
import { valueCar } from '../../../valuation/worth/value-car.ts';
import { type JudgedSum, judgeSums } from '../../helpers/markets/judge-sums.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const { market, on } = simulateMarket({ seed: 6, series: 2, castingsPerSeries: 6, density: 2 });
const fitted = fitMarket(market, defaultAssumptions('USD'), on);
const cars = market.variations.map(({ id, castingId }) => {
  const car = subjectOf({ castingId, variationId: id, grade: 7 });
  return { car, worth: valueCar(fitted, car).asFound! };
});

describe('what the estimates of cars share', () => {
  it('is for a car and itself the variance of its estimate', () => {
    const compared = cars.flatMap(({ car, worth }) => {
      const { effects, ofVariation, ofCasting, ofSeries } = sharedFactors(fitted, car)!;
      const shared = effects.reduce(
        (sum, x) => sum + x * x,
        ofVariation ** 2 + ofCasting ** 2 + ofSeries ** 2,
      );
      return [Math.abs(Math.sqrt(shared) - worth.sharedSd)];
    });
    expect(compared.length).toBeGreaterThan(30);
    expect(Math.max(...compared)).toBeLessThan(1e-9);
  });

  it('is nothing for one car, and more for two of one variation than for two of different series', () => {
    const [first] = cars as [(typeof cars)[number]];
    const seriesOf = (castingId: number | null) =>
      market.castings.find(({ id }) => id === castingId)?.seriesId;
    const far = cars.find(({ car }) => seriesOf(car.castingId) !== seriesOf(first.car.castingId))!;
    expect(sharedCorrelation(fitted, [first])).toBe(0);
    expect(sharedCorrelation(fitted, [first, first])).toBeCloseTo(
      first.worth.sharedSd ** 2 / first.worth.logSd ** 2,
      9,
    );
    expect(sharedCorrelation(fitted, [first, far])).toBeLessThan(
      sharedCorrelation(fitted, [first, first]) / 2,
    );
  });

  it('is all that figures of one owner have, with each other and not with the market', () => {
    const own = [1, 2].map(id => ({
      car: subjectOf({ id }),
      worth: { ...cars[0]!.worth, own: true, sharedSd: cars[0]!.worth.logSd },
    }));
    expect(sharedCorrelation(fitted, own)).toBeCloseTo(1, 9);
  });
});

describe('a sum of cars', () => {
  it('is for one car its own range about its mean, and nothing for none', () => {
    const [one] = cars as [(typeof cars)[number]];
    const { low, mid, high } = sumOfCars(fitted, [one]);
    expect([low, high]).toEqual([one.worth.low, one.worth.high]);
    expect(mid).toBe(Math.round(Math.exp(one.worth.logMean + one.worth.logSd ** 2 / 2)));
    expect(sumOfCars(fitted, [])).toEqual({ low: 0, mid: 0, high: 0, correlation: 0 });
  });

  it('is the same however its cars are parted, figures of the owner among them', () => {
    const all = cars.map((one, i) =>
      i % 7 === 0 ? { ...one, worth: { ...one.worth, own: true, sharedSd: 0.2 } } : one,
    );
    const whole = sumOfCars(fitted, all);
    for (const size of [1, 5, 17]) {
      const parts = Map.groupBy(all.keys(), i => i % size);
      const sum = sumOfParts(
        [...parts.values()].map(places =>
          partOfSum(
            fitted,
            places.map(i => all[i]!),
          ),
        ),
      );
      expect(sum).toEqual({ ...whole, correlation: expect.closeTo(whole.correlation, 9) });
    }
    expect(sumOfParts([partOfSum(fitted, []), partOfSum(fitted, all)])).toEqual(whole);
    expect(sumOfParts([])).toEqual({ low: 0, mid: 0, high: 0, correlation: 0 });
  });

  it('is the same, to a part in a hundred thousand, however finely it is worked out', () => {
    const many = Array.from({ length: 30 }, () => cars)
      .flat()
      .slice(0, 1001);
    const coarse = sumOfCars(fitted, many);
    const fine = sumOfCars(fitted, many.slice(0, 1000));
    const last = many[1000]!.worth;
    expect(coarse.mid - fine.mid).toBeCloseTo(Math.exp(last.logMean + last.logSd ** 2 / 2), -1);
    expect(Math.abs(coarse.low / fine.low - coarse.mid / fine.mid)).toBeLessThan(1e-3);
  });
});

describe.each([
  ['in a still market', { drift: 0 }],
  ['where evidence is thin', { drift: 0, density: 0.3 }],
])('against what collections of 20, 60 and all cars truly bring together, %s', (_, wish) => {
  let sums: JudgedSum[] = [];
  // The sums of one market stand and fall together: over 20 markets the share has a standard error of 0.05.
  beforeAll(() => {
    sums = Array.from({ length: 60 }, (__, i) => 501 + i).flatMap(seed =>
      judgeSums(simulateMarket({ ...wish, seed }), seed),
    );
  });

  it('holds 75 to 85 % of them in its range, and its mean is theirs', () => {
    const coverage = sums.filter(({ covered }) => covered).length / sums.length;
    expect(coverage).toBeGreaterThan(0.75);
    expect(coverage).toBeLessThan(0.85);
    const mean = Math.exp(sums.reduce((sum, { ofMean }) => sum + Math.log(ofMean), 0) / sums.length);
    expect(mean).toBeGreaterThan(0.96);
    expect(mean).toBeLessThan(1.04);
  });

  it('is met by a margin that is to be 80 % sure in about that share of cases', () => {
    const sure = sums.filter(one => one.sure).length / sums.length;
    expect(sure).toBeGreaterThan(0.7);
    expect(sure).toBeLessThan(0.9);
  });
});

/**
 * Revaluing a large collection, by processor time: 100,000 cars against 20,000 sale records, at most 2 s and 600 MB, and linear
 * in the cars; then what to do with each of them, at most 4 s. The baseline is a bare loop that takes the
 * mean log price of each casting and looks it up for each car. Run: node tests/bench/revalue.ts
 */
import { cpus } from 'node:os';
import { recommendCar } from '../../valuation/decision/recommend-car.ts';
import { defaultAssumptions } from '../../valuation/default-assumptions.ts';
import { fitMarket } from '../../valuation/market/fit-market.ts';
import type { Market, Subject, Valuation } from '../../valuation/types.ts';
import { finishStates, grades } from '../../valuation/words.ts';
import { valueCar } from '../../valuation/worth/value-car.ts';
import { simulateMarket } from '../helpers/markets/market-simulator.ts';
import { seededRandom } from '../helpers/random.ts';
import { measured, timed } from './measure.ts';

const saleRecords = 20_000;
const collection = 100_000;
const seconds = 2;
const forRecommending = 4;
const megabytes = 600;

/** Exactly `saleRecords` of a market that has some more. */
const largeMarket = (): { market: Market; on: string } => {
  const { market, on } = simulateMarket({
    seed: 4,
    series: 20,
    castingsPerSeries: 64,
    variationsPerCasting: 5,
  });
  if (market.sales.length < saleRecords)
    throw new Error(`only ${market.sales.length} sale records were drawn`);
  return { market: { ...market, sales: market.sales.slice(0, saleRecords) }, on };
};

const drawCars = (market: Market, count: number): Subject[] => {
  const random = seededRandom(99);
  return Array.from({ length: count }, (_, id) => {
    const variation = market.variations[Math.floor(random.uniform() * market.variations.length)]!;
    return {
      id,
      castingId: variation.castingId,
      variationId: random.uniform() < 0.95 ? variation.id : null,
      candidates: [],
      grade: grades[Math.floor(random.uniform() * grades.length)]!,
      finishState: finishStates[random.pick([0.7, 0.1, 0.1, 0.05, 0.05])]!,
      parts: random.uniform() < 0.3 ? [{ part: 'glazing', grade: null, originality: 'missing' }] : [],
      plan: null,
      ownWorth: null,
    };
  });
};

const bareMeans = (market: Market, cars: readonly Subject[]): Float64Array => {
  const sums = new Map<number, { log: number; count: number }>();
  for (const { castingId, price } of market.sales) {
    const sum = sums.get(castingId) ?? { log: 0, count: 0 };
    sum.log += Math.log(price);
    sum.count++;
    sums.set(castingId, sum);
  }
  return Float64Array.from(cars, car => {
    const sum = sums.get(car.castingId!);
    return sum ? Math.exp(sum.log / sum.count) : 0;
  });
};

const { market, on } = largeMarket();
const assumptions = { ...defaultAssumptions('USD'), index: 'trend' as const };
const cars = drawCars(market, collection);
const before = process.memoryUsage().rss;
console.log(`${cpus()[0]?.model ?? ''}, Node ${process.version}; ${market.variations.length} variations`);

const revalue = async (count: number) => {
  const fit = await timed(() => fitMarket(market, assumptions, on));
  const value = await timed(() => {
    const valued: Valuation[] = [];
    for (let i = 0; i < count; i++) valued.push(valueCar(fit.result, cars[i]!));
    return valued;
  });
  if (value.result.some(v => !v.asFound)) throw new Error('a car was not valued');
  return { fit: fit.ms, value: value.ms, rss: process.memoryUsage().rss };
};

// The first of each is the cold one, as a command meets it.
const cold = await revalue(collection);
const base = (await timed(() => bareMeans(market, cars))).ms;
const rows: ({ count: number } & typeof cold)[] = [];
for (const count of [25_000, 50_000, 100_000]) rows.push({ count, ...(await revalue(count)) });
const report = (name: string, fit: number, value: number) =>
  console.log(
    `${name}: fit ${fit.toFixed(0)} ms + value ${value.toFixed(0)} ms = ${(fit + value).toFixed(0)} ms, ${((fit + value) / base).toFixed(0)}× the bare loop`,
  );
console.log(`bare loop of casting means: ${base.toFixed(1)} ms`);
report(`cold, ${collection} cars`, cold.fit, cold.value);
for (const { count, fit, value } of rows) report(`${count} cars`, fit, value);
const perCar = (row: { count: number; value: number }) => (row.value / row.count) * 1000;
console.log(
  `per car ${rows.map(row => `${perCar(row).toFixed(1)} µs at ${row.count}`).join(', ')}; going from half to all takes ${(rows[2]!.value / rows[1]!.value).toFixed(2)}× (linear: 2)`,
);
const peak = Math.max(cold.rss, ...rows.map(({ rss }) => rss)) / 2 ** 20;
console.log(
  `resident ${(before / 2 ** 20).toFixed(0)} MB with cars and records, ${peak.toFixed(0)} MB at most`,
);
const worst = (cold.fit + cold.value) / 1000;
const fitted = fitMarket(market, assumptions, on);
for (const car of cars) valueCar(fitted, car);
const recommending = await timed(() => {
  for (const car of cars) recommendCar(fitted, car);
});
const beside = { what: 'a bare loop of casting means', value: base };
measured({
  work: `${collection} cars revalued`,
  value: worst * 1000,
  unit: 'ms',
  beside,
  goal: seconds * 1000,
});
measured({
  work: `${collection} recommendations, each valued again`,
  value: recommending.ms,
  unit: 'ms',
  beside,
  goal: forRecommending * 1000,
});
measured({ work: 'memory while revaluing', value: peak, unit: 'MB', goal: megabytes });

/**
 * The engine against simulated markets whose truth is known: coverage of its 80 % intervals, its error
 * beside plain estimators, and what its restore-or-leave decisions lose beside an oracle. Then young
 * collections, which know what was paid and what their owner believes. Prints a table over several seeds.
 * Run: node tests/bench/known-market.ts [seeds]
 */
import { cpus } from 'node:os';
import { defaultAssumptions } from '../../valuation/default-assumptions.ts';
import { type Judgement, judgeMarket } from '../helpers/markets/judge-market.ts';
import { type MarketWish, simulateMarket } from '../helpers/markets/market-simulator.ts';
import { judgeYoung, type YoungWish } from '../helpers/markets/young-market.ts';
import { ratioText } from '../helpers/ratio.ts';

const seeds = Number(process.argv[2] ?? 12);
const kinds: { name: string; wish: Omit<MarketWish, 'seed'>; index: 'none' | 'trend' }[] = [
  {
    name: 'drifting market, no index, as by default (the others have a line in time)',
    wish: {},
    index: 'none',
  },
  { name: 'drifting market, fitted trend', wish: {}, index: 'trend' },
  { name: 'still market, no index', wish: { drift: 0 }, index: 'none' },
  {
    name: 'wild and ungraded records',
    wish: { wildShare: 0.02, ungradedShare: 0.1, incompleteShare: 0.2 },
    index: 'trend',
  },
  {
    name: 'drawn as the assumptions say',
    wish: { drift: 0, asAssumed: defaultAssumptions('USD') },
    index: 'none',
  },
  { name: 'small market (2 series of 6)', wish: { series: 2, castingsPerSeries: 6 }, index: 'trend' },
];
const percent = (x: number) => `${(100 * x).toFixed(1)} %`.padStart(7);
const share = (list: boolean[]) => list.filter(Boolean).length / list.length;
const median = (values: number[]) => values.toSorted((a, b) => a - b)[values.length >> 1]!;
const others = ['own mean', 'casting mean', 'casting dummies', 'variation dummies'] as const;
const levels = ['0 sales', '1–2', '3+'] as const;

console.log(`${seeds} seeds each, ${cpus()[0]?.model ?? ''}`);
for (const { name, wish, index } of kinds) {
  const all: Judgement[] = [];
  for (let seed = 1; seed <= seeds; seed++)
    all.push(judgeMarket(simulateMarket({ ...wish, seed }), index, seed));
  const cars = all.flatMap(j => j.cars);
  console.log(`\n${name}: ${cars.length} cars`);
  console.log(`  coverage overall ${percent(share(cars.map(c => c.covered)))}  (75–85)`);
  for (const level of levels) {
    const some = cars.filter(c => c.level === level);
    const beside = others.map(key => {
      // A way without an answer for a car is compared on the cars that it answers.
      const answered = some.filter(c => !Number.isNaN(c.errors[key]));
      if (answered.length === 0) return `${key} —`;
      const error = median(answered.map(c => c.errors[key]));
      return `${key} ${error.toFixed(3)} (${(error / median(answered.map(c => c.errors.ours))).toFixed(2)}×)`;
    });
    const ours = median(some.map(c => c.errors.ours));
    console.log(
      `  ${level.padEnd(8)} coverage ${percent(share(some.map(c => c.covered)))} (70–90)   median |log error| ours ${ours.toFixed(3)}, ${beside.join(', ')}`,
    );
  }
  const standard = Array.from({ length: seeds }, (_, i) =>
    judgeMarket(simulateMarket({ ...wish, seed: i + 1 }), index, i + 1, 'standard'),
  );
  const aMarket = (list: Judgement[], key: keyof Judgement['regret']) =>
    Math.round(list.reduce((sum, j) => sum + j.regret[key], 0) / seeds);
  const known = Array.from({ length: seeds }, (_, i) =>
    judgeMarket(simulateMarket({ ...wish, seed: i + 1 }), index, i + 1, 'car, work known'),
  );
  for (const [plans, list] of [
    ['plans made from the cars', all],
    ['the same, the workmanship known', known],
    ['the standard plan, its aim for certain', standard],
  ] as const)
    console.log(
      `  with ${plans}: regret ${aMarket(list, 'ours')} a market (cars restored at a loss ${aMarket(list, 'wrongly')}, good ones left for their chance alone ${aMarket(list, 'byChance')}), ${aMarket(list, 'sameFloors')} beside an oracle that keeps to the same floors, which cost it ${aMarket(list, 'floors')}, ${aMarket(list, 'gainFloor')} with the floor of gain alone, ${aMarket(list, 'noFloors')} without floors; promised gain ÷ what came ${ratioText(list.map(j => ({ of: j.promised, to: j.came })))}`,
    );
  const lost = (key: keyof Judgement['regret']) =>
    percent(
      all.reduce((sum, j) => sum + j.regret[key], 0) / all.reduce((sum, j) => sum + j.regret.underC6, 0),
    );
  console.log(
    `  regret as a share of that of "restore whatever is under C6" (at most 50 %): ours ${lost('ours')}, without floors ${lost('noFloors')}, only where nothing else is recommended ${lost('recommended')}; leaving all ${lost('never')}`,
  );
}

console.log('\nyoung collections: what was paid for lots, what is believed (off by ± 25 %), sale records');
const young: { name: string; wish: YoungWish }[] = [
  { name: '14 lots and 5 beliefs', wish: { lots: 14, beliefs: 5 } },
  { name: '14 lots', wish: { lots: 14 } },
  { name: '3 lots and 5 beliefs', wish: { lots: 3, beliefs: 5 } },
  { name: '5 beliefs', wish: { beliefs: 5 } },
  { name: '60 sale records', wish: { records: 60 } },
  { name: '60 sale records, 14 lots and 5 beliefs', wish: { records: 60, lots: 14, beliefs: 5 } },
  { name: '14 lots at the very sum of their cars', wish: { lots: 14, lotNoise: 0 } },
  { name: '14 lots, loosely priced', wish: { lots: 14, lotNoise: 0.5 } },
];
for (const { name, wish } of young) {
  const all = Array.from({ length: seeds }, (_, i) => judgeYoung(i + 1, wish));
  const valued = all.reduce((sum, j) => sum + j.valued, 0) / all.reduce((sum, j) => sum + j.cars, 0);
  const inLots = all.flatMap(j => j.inLots);
  console.log(
    `  ${name.padEnd(40)} valued ${percent(valued)}   coverage ${percent(share(all.flatMap(j => j.covered)))} (75–85)   median |log error| ${median(all.flatMap(j => j.errors)).toFixed(3)}${
      inLots.length > 0
        ? `; cars of the lots: coverage ${percent(share(inLots.map(c => c.covered)))}, ours ${median(inLots.map(c => c.ours)).toFixed(3)}, price ÷ number of cars ${median(inLots.map(c => c.evenShare)).toFixed(3)}`
        : ''
    }`,
  );
}

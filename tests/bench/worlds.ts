/**
 * The engine in worlds that break its assumptions, one at a time: coverage of the 80 % ranges by sparsity and
 * by grade, CRPS of the logs, sums, what was promised of recommended work ÷ what came, and regret beside the
 * best rule of thumb. What was promised is held against what came twice: by the workmanship that is assumed,
 * and by the one by which the work truly turns out, so that what is the assumption's can be told from what is
 * the engine's. Run: node tests/bench/worlds.ts [seeds] [name or ''] [index]
 */
import { defaultAssumptions } from '../../valuation/default-assumptions.ts';
import type { AssumptionSet } from '../../valuation/types.ts';
import { judgeWorld } from '../helpers/judge-world.ts';
import { turnsOut } from '../helpers/judged-work.ts';
import { type MarketWish, simulateMarket } from '../helpers/market-simulator.ts';
import { ratioText } from '../helpers/ratio.ts';

const seeds = Number(process.argv[2] ?? 8);
const only = process.argv[3] || undefined;
/** An index other than the default. */
const index = process.argv[4] as 'none' | 'trend' | 'steps' | 'records' | undefined;
interface World {
  name: string;
  wish: Omit<MarketWish, 'seed'>;
  ungraded?: { share: number; worse: number };
  changed?: Partial<AssumptionSet>;
}
const worlds: World[] = [
  { name: 'still', wish: { drift: 0 } },
  { name: 'quiet', wish: { drift: 0, noise: 0.15 } },
  { name: 'loud', wish: { drift: 0, noise: 0.6 } },
  { name: 'heavy tails', wish: { drift: 0, heavyTails: true } },
  { name: 'drift 10 %', wish: { drift: 0.1 } },
  { name: 'bubble', wish: { drift: 0, bubble: 0.7 } },
  { name: 'thin', wish: { drift: 0, density: 0.35 } },
  { name: 'wrong labels', wish: { drift: 0, mislabelled: 0.15 } },
  {
    name: 'biased sources',
    wish: {
      drift: 0,
      sources: [
        { source: 'listing', share: 0.35, bias: 0.25 },
        { source: 'fair', share: 0.2, bias: -0.1 },
      ],
    },
  },
  { name: 'one grade only', wish: { drift: 0, onlyGrade: 7 } },
  { name: 'noise by grade', wish: { drift: 0, noiseByGrade: 3 } },
  { name: 'no restored record', wish: { drift: 0, noRestored: true } },
  { name: 'unknown rarity', wish: { drift: 0, unknownRarity: 0.5 } },
  {
    name: 'ungraded are worse',
    wish: { drift: 0, ungradedShare: 0.25, ungradedWorse: 1.5 },
    ungraded: { share: 0.4, worse: 1.5 },
  },
];
const assumed = defaultAssumptions('USD');
worlds.push(
  { name: 'as assumed', wish: { drift: 0, asAssumed: assumed } },
  { name: 'as assumed, thin', wish: { drift: 0, density: 0.35, asAssumed: assumed } },
);
const share = (list: boolean[]) => list.filter(Boolean).length / Math.max(1, list.length);
const percent = (list: boolean[]) => (list.length < 20 ? ' – ' : (100 * share(list)).toFixed(0)).padStart(3);
const mean = (list: number[]) => list.reduce((a, b) => a + b, 0) / Math.max(1, list.length);
const median = (list: number[]) => list.toSorted((a, b) => a - b)[list.length >> 1] ?? Number.NaN;

console.log(
  `${seeds} seeds each\nworld                 cover  0/1–2/3+ sales  C1–2/C3–6/C7+  rest ungr  CRPS   |err|  sums  ÷mean season ÷mid promise÷came regret÷best thumb (without floors; behind them; thumb)`,
);
for (const { name, wish, ungraded, changed } of worlds) {
  if (only !== undefined && !name.includes(only)) continue;
  const judge = (work: Partial<AssumptionSet>) =>
    Array.from({ length: seeds }, (_, i) =>
      judgeWorld(
        simulateMarket({ ...wish, seed: i + 1 }),
        i + 1,
        { ...changed, ...(index && { index }), ...work },
        ungraded,
      ),
    );
  const all = judge({});
  const known = judge({ work: { ...assumed.work, workmanship: turnsOut } });
  const promise = (list: typeof all) => ratioText(list.map(j => ({ of: j.promised, to: j.came })));
  const cars = all.flatMap(j => j.cars);
  const some = (of: (c: (typeof cars)[number]) => boolean) => percent(cars.filter(of).map(c => c.covered));
  const sum = (of: (j: (typeof all)[number]) => number) => all.reduce((s, j) => s + of(j), 0);
  const thumbs = Object.keys(all[0]!.thumbs).map(key => ({ key, lost: sum(j => j.thumbs[key]!) }));
  const best = thumbs.reduce((a, b) => (b.lost < a.lost ? b : a));
  const seasons = all.flatMap(j => j.seasons);
  const sums = all.flatMap(j => j.sums);
  const taken = Object.entries(Object.groupBy(all, j => j.index)).map(
    ([name, list]) => `${name} ${list!.length}`,
  );
  console.log(
    [
      name.padEnd(20),
      (100 * share(cars.map(c => c.covered))).toFixed(1),
      ` ${some(c => c.sales === 0)}/${some(c => c.sales > 0 && c.sales < 3)}/${some(c => c.sales > 2)}`,
      `    ${some(c => c.grade <= 2.5)}/${some(c => c.grade > 2.5 && c.grade < 7)}/${some(c => c.grade >= 7)}`,
      `  ${some(c => c.state === 'restored')} ${some(c => c.ungraded)}`,
      `  ${mean(cars.map(c => c.crps)).toFixed(4)} ${median(cars.map(c => Math.abs(c.error))).toFixed(3)}`,
      ` ${percent(sums.map(s => s.covered))} ${mean(sums.map(s => s.ofMean)).toFixed(2)}`,
      ` ${percent(seasons.map(s => s.covered))} ${mean(seasons.map(s => s.ofMid)).toFixed(2)}`,
      `  ${promise(all)}, work known ${promise(known)}`,
      `  ${(sum(j => j.regret) / best.lost).toFixed(2)} (${Math.round(sum(j => j.regret) / seeds)}; ${(sum(j => j.behindFloors) / best.lost).toFixed(2)}; ${best.key} ${Math.round(best.lost / seeds)})  ${taken.join(', ')}`,
    ].join('  '),
  );
}

/**
 * The engine in worlds that break its assumptions, one at a time: coverage of the 80 % ranges by sparsity and
 * by grade, CRPS of the logs, sums, what was promised of recommended work ÷ what came, and regret beside the
 * best rule of thumb. What was promised is held against what came twice: by the workmanship that is assumed,
 * and by the one by which the work truly turns out, so that what is the assumption's can be told from what is
 * the engine's. Run: node tests/bench/worlds.ts [seeds] [name or ''] [index]
 */
import { defaultAssumptions } from '../../valuation/default-assumptions.ts';
import type { AssumptionSet } from '../../valuation/types.ts';
import { judgeWorld } from '../helpers/markets/judge-world.ts';
import { turnsOut } from '../helpers/markets/judged-work.ts';
import { simulateMarket } from '../helpers/markets/market-simulator.ts';
import { worlds } from '../helpers/markets/worlds.ts';
import { ratioText } from '../helpers/ratio.ts';

const seeds = Number(process.argv[2] ?? 8);
const only = process.argv[3] || undefined;
/** An index other than the default. */
const index = process.argv[4] as 'none' | 'trend' | 'steps' | 'records' | undefined;
const assumed = defaultAssumptions('USD');
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

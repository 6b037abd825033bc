/**
 * The engine in worlds that break its assumptions, one at a time: coverage of the 80 % ranges by sparsity, CRPS of
 * the logs beside a mixed model's on the same records (at most 3 % above it), sums, what was promised of recommended
 * work ÷ what came, and regret as a share of the best rule of thumb's; each with its standard error over the
 * markets. What was promised is held against what came twice: by the workmanship that is assumed, and by the one by
 * which the work truly turns out, so that what is the assumption's can be told from what is the engine's.
 *
 * Run: node tests/bench/worlds.ts [--seeds 8 or 11-20] [--world 'wrong labels'] [--keep FILE.json] [--against
 * FILE.json] [--index none]. What is kept is a row for each market; batches add up in one file, a market that is run
 * again replaces its row, and `--seeds 0` prints what is kept. `--against` prints the change by pairs of markets.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { parseArgs } from 'node:util';
import type { AssumptionSet } from '../../valuation/types.ts';
import { judgeWorld } from '../helpers/markets/judge-world.ts';
import { simulateMarket } from '../helpers/markets/market-simulator.ts';
import { changesOf, tableOf, type WorldRow, worldRow } from '../helpers/markets/world-rows.ts';
import { worlds } from '../helpers/markets/worlds.ts';

const { values } = parseArgs({
  options: {
    seeds: { type: 'string', default: '8' },
    world: { type: 'string' },
    keep: { type: 'string' },
    against: { type: 'string' },
    index: { type: 'string' },
  },
});
const [first, last] = values.seeds.includes('-')
  ? (values.seeds.split('-').map(Number) as [number, number])
  : [1, Number(values.seeds)];
const index = values.index as Exclude<AssumptionSet['index'], object> | undefined;
const read = (file: string): WorldRow[] =>
  existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as WorldRow[]) : [];
const wished = worlds.filter(({ name }) => values.world === undefined || name === values.world);
if (wished.length === 0 || !(last >= 0))
  throw new Error(
    `--seeds is a number or FROM-TO, --world one of: ${worlds.map(({ name }) => name).join('; ')}`,
  );

const order = new Map(worlds.map(({ name }, i) => [name, i]));
let rows = values.keep ? read(values.keep) : [];
for (const { name, wish, ungraded, changed } of wished)
  for (let seed = first; seed <= last; seed++) {
    const market = simulateMarket({ ...wish, seed });
    const judged = judgeWorld(market, seed, { ...changed, ...(index && { index }) }, ungraded);
    rows = [...rows.filter(row => row.world !== name || row.seed !== seed), worldRow(name, seed, judged)];
    if (!values.keep) continue;
    mkdirSync(dirname(values.keep), { recursive: true });
    writeFileSync(values.keep, JSON.stringify(rows));
  }
const shown = rows
  .filter(({ world }) => values.world === undefined || world === values.world)
  .toSorted((a, b) => order.get(a.world)! - order.get(b.world)! || a.seed - b.seed);
console.log(tableOf(shown));
if (values.against) console.log(`\n${changesOf(read(values.against), shown)}`);

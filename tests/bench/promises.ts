/**
 * Promised ÷ realised gain of recommended restorations in each world, the engine being told one truth after
 * the other: so that what the starting figures' distance from a world costs can be told from faults of the
 * engine, which would be left where all is told. Run: node tests/bench/promises.ts [seeds] [name or '']
 */
import { judgePromises } from '../helpers/markets/judge-promises.ts';
import type { truths } from '../helpers/markets/known-truth.ts';
import { simulateMarket } from '../helpers/markets/market-simulator.ts';
import { worlds } from '../helpers/markets/worlds.ts';
import { ratioText } from '../helpers/ratio.ts';

const seeds = Number(process.argv[2] ?? 8);
const only = process.argv[3] || undefined;
const told: { name: string; pieces: (keyof typeof truths)[] }[] = [
  { name: 'as it is', pieces: [] },
  { name: 'twenty jobs', pieces: ['twenty jobs'] },
  { name: 'workmanship', pieces: ['workmanship'] },
  { name: '+ curves', pieces: ['workmanship', 'curves'] },
  { name: '+ the rest', pieces: ['workmanship', 'curves', 'rarities', 'spreads'] },
];
console.log(`${seeds} seeds each\n${'world'.padEnd(22)}${told.map(({ name }) => name.padEnd(14)).join('')}`);
for (const { name, wish } of worlds) {
  if (only !== undefined && !name.includes(only)) continue;
  const drawn = Array.from({ length: seeds }, (_, i) => simulateMarket({ ...wish, seed: i + 1 }));
  const ratios = told.map(({ pieces }) =>
    ratioText(drawn.map((world, i) => judgePromises(world, i + 1, pieces))).padEnd(14),
  );
  console.log(`${name.padEnd(22)}${ratios.join('')}`);
}

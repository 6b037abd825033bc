/**
 * One keystroke of the search over 20,000 cars, in the data layer and through the procedure that the
 * screens call: at most 16 ms of processor time at the 95th percentile. The baseline is one bare, prepared full-text query
 * for the same words.
 * Run: node tests/bench/search.ts [cars]
 */
import '../../electron/service/small-heap.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { search, searchCarIds, searchQuery } from '../../db/search/search.ts';
import { makeLargeCollection } from '../helpers/large-collection.ts';
import { measured } from './measure.ts';
import { serviceOn } from './service-on.ts';

const cars = Number(process.argv[2] ?? 20_000);
const target = 16;
const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
const dir = join(folder, 'collection');
const typed = [
  'q-0123',
  'ruby harrow',
  'bent axle box 12',
  'fallowell 1970',
  'shelf 4 teal',
  'lot 17',
  'weir',
  'x',
];
const keystrokes = typed.flatMap(text => Array.from(text, (_, i) => text.slice(0, i + 1)));

const times = async (rounds: number, press: (text: string) => unknown): Promise<number[]> => {
  for (const text of keystrokes) await press(text);
  const taken: number[] = [];
  for (let round = 0; round < rounds; round++)
    for (const text of keystrokes) {
      const start = process.cpuUsage();
      await press(text);
      const { user, system } = process.cpuUsage(start);
      taken.push((user + system) / 1000);
    }
  return taken.sort((a, b) => a - b);
};
const at = (sorted: number[], share: number) => sorted[Math.floor(share * (sorted.length - 1))]!;

try {
  await (await makeLargeCollection(dir, cars)).close({ at: '2026-03-14T10:00:00.000Z' });
  const { session, api } = serviceOn(dir);
  await api.collection.open({ dir });
  const collection = session.collection!;
  const bare = collection.read.sqlite.prepare(
    'SELECT rowid FROM car_search WHERE car_search MATCH ? ORDER BY rank LIMIT 20',
  );
  const taken: [string, number[]][] = [
    ['one bare query of the cars', await times(10, text => bare.all(searchQuery(text) ?? '""'))],
    ['every kind, data layer', await times(10, text => search(collection.read.db, text, 20))],
    [
      'every kind, through the procedure',
      await times(10, text => api.collection.search({ text, limit: 20 })),
    ],
    ["all cars' numbers, for the grid", await times(10, text => searchCarIds(collection.read.db, text))],
  ];
  await session.close();
  const baseline = at(taken[0]![1], 0.5);
  console.log(`${keystrokes.length} keystrokes over ${cars} cars, ten times; target p95 ≤ ${target} ms`);
  for (const [what, sorted] of taken)
    console.log(
      `${what.padEnd(36)} p50 ${at(sorted, 0.5).toFixed(2)} ms (${(at(sorted, 0.5) / baseline).toFixed(1)}×)  p95 ${at(sorted, 0.95).toFixed(2)} ms  max ${at(sorted, 1).toFixed(2)} ms`,
    );
  const p95 = at(taken[2]![1], 0.95);
  measured({
    work: `a keystroke of the search, 95th percentile, ${cars} cars`,
    value: p95,
    unit: 'ms',
    beside: { what: 'one bare query, median', value: baseline },
    goal: target,
  });
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/**
 * Resident memory of a data service with 20,000 cars open, after it has shown Home, listed them in
 * five orders and searched them: at most 250 MB. Measured in a process of its own, beside one that has
 * opened an empty collection. Once where all has to be worked out, and once where the session before has.
 * Run: node tests/bench/memory.ts [cars]
 */
import '../../electron/service/small-heap.ts';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createCollection } from '../../db/open-collection.ts';
import { makeLargeCollection } from '../helpers/large-collection.ts';
import { measured } from './measure.ts';
import { serviceOn } from './service-on.ts';

const at = '2026-03-14T10:00:00.000Z';
const target = 250;
const megabytes = (bytes: number) => bytes / 1e6;

/**
 * Opens a collection as the service does, uses it, and prints its resident memory in bytes: now, and
 * the most there was.
 */
const use = async (dir: string) => {
  const { session, api } = serviceOn(dir);
  await api.collection.open({ dir });
  await api.collection.home();
  const any = {
    ...{ lots: [], series: [], finish: [], grade: [], status: [], recommendation: [], rarity: [] },
    ...{ casting: null, variation: null, show: null, text: '' },
  };
  for (let i = 0; i < 5; i++) {
    const sort =
      i === 0 ? null : { columnId: ['number', 'name', 'found', 'gain'][i - 1]!, descending: false };
    const list = { filter: any, order: { sort, since: '', locale: 'en-GB' }, wall: false };
    await api.cars.window({ ...list, from: 1000 * i, count: 128 });
    await api.cars.facts(any);
  }
  for (const text of ['q', 'ruby', 'bent axle', 'harrow 1']) await api.collection.search({ text, limit: 20 });
  const now = process.memoryUsage().rss;
  console.log(JSON.stringify([now, process.resourceUsage().maxRSS * 1024]));
  await session.close();
};

if (process.argv[2] === 'use') await use(process.argv[3]!);
else {
  const cars = Number(process.argv[2] ?? 20_000);
  const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
  try {
    const empty = join(folder, 'empty');
    await createCollection(empty, { at, reportingCurrency: 'USD' });
    const full = join(folder, 'full');
    await (await makeLargeCollection(full, cars)).close({ at });
    const measure = (dir: string): [number, number] =>
      JSON.parse(
        execFileSync(process.execPath, [fileURLToPath(import.meta.url), 'use', dir], { encoding: 'utf8' }),
      );
    const [emptyNow, emptyMost] = measure(empty);
    const [first, mostFirst] = measure(full);
    const [now, most] = measure(full);
    const line = (what: string, a: number, b: number) =>
      console.log(`${what.padEnd(24)} ${megabytes(a).toFixed(0)} MB, at most ${megabytes(b).toFixed(0)} MB`);
    line('an empty collection', emptyNow, emptyMost);
    line(`${cars} cars, first`, first, mostFirst);
    line(`${cars} cars, again`, now, most);
    measured({
      work: `resident memory, ${cars} cars open, all worked out`,
      value: megabytes(first),
      unit: 'MB',
      beside: { what: 'an empty collection', value: megabytes(emptyNow) },
      goal: target,
    });
    measured({
      work: `resident memory, ${cars} cars open, as the last session left them`,
      value: megabytes(now),
      unit: 'MB',
      beside: { what: 'an empty collection', value: megabytes(emptyNow) },
      goal: target,
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

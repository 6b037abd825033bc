/**
 * Resident memory of a data service with 100,000 cars and a fifth as many sale records open, after it has shown Home,
 * listed the cars in five orders, searched them and come to rest: at most 250 MB. Once where all has to be worked out, and once where
 * the session before has; then with two records for every three cars, of which nothing is promised. Measured in a
 * process of its own that runs what was built, as the hosts do (from the sources it would be some 70 MB more), beside
 * one that has opened an empty collection. Run: node tests/bench/memory.ts [cars]
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { createCollection } from '../../db/open-collection.ts';
import { bundleConfig } from '../../electron/vite.config.ts';
import { makeLargeCollection } from '../helpers/large-collection.ts';
import { measured } from './measure.ts';

const at = '2026-03-14T10:00:00.000Z';
const target = 250;
const megabytes = (bytes: number) => bytes / 1e6;

const root = fileURLToPath(new URL('../..', import.meta.url));
/** Within the checkout, where what stays outside of bundles is found. */
const built = join(root, 'output/bench/memory');

/** `memory-use.ts`, built as the hosts of collections are. */
const buildUse = async (): Promise<string> => {
  const { build: how, ...rest } = bundleConfig('hosts', built);
  const use = fileURLToPath(new URL('memory-use.ts', import.meta.url));
  await build({ ...rest, build: { ...how, rolldownOptions: { ...how?.rolldownOptions, input: { use } } } });
  return join(built, 'use.cjs');
};

const cars = Number(process.argv[2] ?? 100_000);
const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
try {
  const use = await buildUse();
  const measure = (dir: string): [now: number, most: number | null] =>
    JSON.parse(execFileSync(process.execPath, [use, dir], { encoding: 'utf8' }));
  const empty = join(folder, 'empty');
  await createCollection(empty, { at, reportingCurrency: 'USD' });
  const [emptyNow] = measure(empty);
  const told = (what: string, [now, most]: [number, number | null], goal: number | null) => {
    measured({
      work: `resident, ${what}`,
      value: megabytes(now),
      unit: 'MB',
      beside: { what: 'an empty collection', value: megabytes(emptyNow) },
      goal,
    });
    if (most !== null) console.log(`    at most ${megabytes(most).toFixed(0)} MB`);
  };
  const filled = async (name: string, options: { sales?: number }) => {
    const dir = join(folder, name);
    await (await makeLargeCollection(dir, cars, options)).close({ at });
    return dir;
  };
  const full = await filled('full', { sales: cars / 5 });
  told(`${cars} cars, all worked out`, measure(full), target);
  told(`${cars} cars, as the last session left them`, measure(full), target);
  const busy = await filled('busy', {});
  told(`${cars} cars and ${Math.round((cars / 3) * 2)} records`, measure(busy), null);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

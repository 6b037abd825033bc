/**
 * Decide where work pays for many of the cars of a large collection: lists, chart, sums, and the best set of a season under
 * four limits, in processor time; and how soon a choice that is cancelled is given up, by the clock.
 * Run: node tests/bench/season.ts [cars]
 */
import '../../electron/service/small-heap.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeLargeCollection } from '../helpers/large-collection.ts';
import { measured, timed } from './measure.ts';
import { serviceOn } from './service-on.ts';

const cars = Number(process.argv[2] ?? 20_000);
const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
const dir = join(folder, 'collection');

try {
  await (await makeLargeCollection(dir, cars, { pays: true })).close({ at: '2026-03-14T10:00:00.000Z' });
  const { session, api } = serviceOn(dir);
  await api.collection.open({ dir });
  await api.collection.home();
  const filter = {
    ...{ lot: null, finish: [], below: null, not: [], recommendation: [], decided: null },
  };
  const list = (columnId: string) => ({
    filter,
    order: { sort: { columnId, descending: true }, since: '', locale: 'en' },
    from: 0,
    count: 96,
  });
  const facts = await timed(() => api.decisions.facts(filter));
  const at = `, ${facts.result.offered} of ${cars} cars pay`;
  const one = async (work: string, goal: number | null, run: () => Promise<unknown>) => {
    const { ms } = await timed(run);
    measured({ work: `${work}${at}`, value: ms, unit: 'ms', goal });
  };
  measured({ work: `Decide, sums and counts${at}`, value: facts.ms, unit: 'ms', goal: 150 });
  await one('Decide, first rows', 150, () => api.decisions.window(list('gain')));
  await one('Decide sorted by probability', 150, () => api.decisions.window(list('probability')));
  await one('Decide, chart', 150, () => api.decisions.points({ filter, also: [] }));
  await one('Decide, what a season leaves out', 150, () =>
    api.decisions.leftOut({ filter, taken: [], never: [] }),
  );
  const wishes = {
    'of 40 hours': { hours: 40 },
    'under four limits': { hours: 200, cash: 600_00, parts: { Wheels: 20 }, cars: 60 },
    'of 10,000 places': { cars: 10_000 },
  };
  for (const [name, wish] of Object.entries(wishes)) {
    const { result, ms } = await timed(() => api.decisions.season({ filter, ...wish }));
    const { taken, considered, gapLeft = 0.001 } = result;
    measured({
      work: `The best set ${name}, to ${(100 * gapLeft).toFixed(2)} %, ${taken.length} cars${at}`,
      value: ms,
      unit: 'ms',
      goal: null,
    });
    if (considered) console.log(`  ${considered.cars} of ${considered.of} compared one by one`);
  }
  const stop = new AbortController();
  const choosing = api.decisions.season({ filter, ...wishes['under four limits'] }, { signal: stop.signal });
  await new Promise(resolve => setTimeout(resolve, 500));
  const from = performance.now();
  stop.abort();
  await choosing.catch(() => {});
  measured({
    work: `A choice given up${at}`,
    value: performance.now() - from,
    unit: 'ms',
    goal: 100,
  });
  await session.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}

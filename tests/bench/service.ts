/**
 * The data service with a large collection open: Home, lists, edits, undo and bulk work, in processor time.
 * Run: node tests/bench/service.ts [cars]
 */
import '../../electron/service/small-heap.ts';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readSubjects } from '../../db/engine/subjects.ts';
import { openWriter } from '../../db/file/connection.ts';
import { rowAsJson, trackedTables } from '../../db/history/tracking.ts';
import { listCars } from '../../db/records/cars/cars.ts';
import { searchDocuments } from '../../db/search/search-documents.ts';
import { assumptionsInForce } from '../../electron/api/figures/assumptions.ts';
import { rawMarket } from '../../electron/api/figures/market.ts';
import { fitMarket } from '../../valuation/market/fit-market.ts';
import { valueCar } from '../../valuation/worth/value-car.ts';
import { makeLargeCollection } from '../helpers/large-collection.ts';
import { measured, timed } from './measure.ts';
import { serviceOn } from './service-on.ts';

const cars = Number(process.argv[2] ?? 20_000);
const many = Math.min(10_000, cars);
const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
const dir = join(folder, 'collection');

/**
 * The same update of many cars by SQLite alone: the rows, their documents for the search, and each row before
 * and after.
 */
const bareUpdate = async (): Promise<number> => {
  const sqlite = openWriter(join(folder, 'bare', 'collection.sqlite'));
  const table = trackedTables(sqlite).find(({ name }) => name === 'car')!;
  const document = searchDocuments.find(({ index }) => index === 'car_search')!;
  const { ms } = await timed(() => {
    sqlite.exec(`BEGIN IMMEDIATE;
      INSERT INTO change (id, label, made_at) VALUES (1000000, 'bare', '');
      INSERT INTO change_row (change_id, table_name, row_id, before, after)
        SELECT 1000000, 'car', id, ${rowAsJson(table, 'car')}, NULL FROM car WHERE id <= ${many};
      UPDATE car SET location = 'Barn' WHERE id <= ${many};
      UPDATE change_row SET after = (SELECT ${rowAsJson(table, 'car')} FROM car WHERE car.id = row_id) WHERE change_id = 1000000;
      DELETE FROM car_search WHERE rowid <= ${many};
      INSERT INTO car_search (rowid, ${Object.keys(document.columns).join(', ')})
        SELECT car.id, ${Object.values(document.columns).join(', ')} FROM ${document.from} WHERE car.id <= ${many};
      COMMIT`);
  });
  sqlite.close();
  return ms;
};

try {
  await (await makeLargeCollection(dir, cars)).close({ at: '2026-03-14T10:00:00.000Z' });
  cpSync(dir, join(folder, 'bare'), { recursive: true });
  const { session, api } = serviceOn(dir);
  const at = `, ${cars} cars`;
  const simple = async (work: string, goal: number | null, run: () => Promise<unknown>) => {
    const { ms } = await timed(run);
    measured({ work: `${work}${at}`, value: ms, unit: 'ms', goal });
  };
  await simple('collection opened', null, () => api.collection.open({ dir }));

  const { db } = session.collection!.read;
  const market = await rawMarket(session);
  const { body } = await assumptionsInForce(session);
  const subjects = await readSubjects(db, await listCars(db));
  const engine = await timed(() => {
    const fitted = fitMarket(market, body, '2026-03-14');
    for (const subject of subjects) valueCar(fitted, subject);
  });
  subjects.length = 0;
  const home = await timed(() => api.collection.home());
  measured({
    work: `Home, first${at}`,
    value: home.ms,
    unit: 'ms',
    beside: { what: "the engine's own revaluation", value: engine.ms },
    goal: 3,
    goalOf: 'ratio',
  });
  await simple('Home, again', 50, () => api.collection.home());
  // What runs a second time is what somebody at work meets.
  const edit = (id: number, grade: number) => api.cars.update({ changes: [{ id, patch: { grade } }] });
  await edit(11, 5);
  await api.collection.home();
  await simple('one edit', 100, () => edit(12, 6));
  await simple('Home after one edit', 50, () => api.collection.home());
  await simple('its undo', 100, () => api.collection.undo());
  await simple('Home after the undo', 50, () => api.collection.home());

  const window = { from: 0, count: 96 };
  const order = (columnId: string | null, descending = false) => ({
    sort: columnId === null ? null : { columnId, descending },
    since: '',
    locale: 'en-GB',
  });
  const anyCar = {
    ...{ lots: [], series: [], finish: [], grade: [], status: [], recommendation: [], rarity: [] },
    ...{ casting: null, variation: null, show: null, text: '' },
  };
  const allCars = { filter: anyCar, order: order(null), wall: false };
  const anySale = { castingId: null, variationId: null, source: '', finish: null, show: 'all' as const };
  const anyDecision = {
    ...{ lot: null, finish: [], below: null, not: [], recommendation: [], decided: null },
  };
  const toDecide = { filter: anyDecision, order: order('gain', true) };
  const newest = { filter: anySale, order: { ...order('soldOn', true), since: 'bench' } };
  const first = async (work: string, list: () => Promise<unknown>) => {
    const { result, ms } = await timed(list);
    measured({ work: `${work}${at}`, value: ms, unit: 'ms', goal: 150 });
    return JSON.stringify(result).length / 1000;
  };
  for (const [work, list] of [
    ['Cars', () => api.cars.window({ ...allCars, ...window })],
    ['Sales', () => api.sales.window({ ...newest, ...window })],
    ['Decide', () => api.decisions.window({ ...toDecide, ...window })],
  ] as const) {
    const kilobytes = await first(`${work}, first rows`, list);
    measured({ work: `${work}, over the wire${at}`, value: kilobytes, unit: 'kB', goal: 200 });
  }
  const carsBy = (columnId: string) => () =>
    api.cars.window({ ...allCars, order: order(columnId, true), ...window });
  const carsOf = (filter: object) => () =>
    api.cars.window({ ...allCars, filter: { ...anyCar, ...filter }, ...window });
  await first('Cars, scrolled', () =>
    api.cars.window({ ...allCars, from: Math.floor(cars / 2), count: 128 }),
  );
  await first('Cars, sums and counts', () => api.cars.facts(anyCar));
  await first('Cars sorted by value', carsBy('found'));
  await first('Cars sorted by number', carsBy('number'));
  await first('Cars sorted by name', carsBy('name'));
  await first('Cars filtered by grade', carsOf({ grade: ['7-8.5'] }));
  await first('Cars filtered by words, first', carsOf({ text: 'harrow' }));
  await first('Cars filtered by words', carsOf({ text: 'harrow bent' }));
  await first('Decide, sums and counts', () => api.decisions.facts(anyDecision));
  measured({
    work: `Decide, its chart over the wire${at}`,
    value: await first('Decide, chart', () => api.decisions.points({ filter: anyDecision, also: [] })),
    unit: 'kB',
    goal: 200,
  });
  const decideBy = (columnId: string) => () =>
    api.decisions.window({ ...toDecide, order: order(columnId, true), ...window });
  await first('Decide sorted by probability', decideBy('probability'));
  await first('Decide sorted by car', decideBy('car'));
  await first('Decide filtered by grade', () =>
    api.decisions.window({ ...toDecide, filter: { ...anyDecision, below: 6 }, ...window }),
  );
  await first('Decide, what a season leaves out', () =>
    api.decisions.leftOut({ filter: anyDecision, taken: [], never: [] }),
  );
  await simple('Decide, the best season of 40 hours', null, () =>
    api.decisions.season({ filter: anyDecision, hours: 40 }),
  );
  await first('Sales, counts', () => api.sales.facts(anySale));
  await first('Sales sorted by casting', () =>
    api.sales.window({ filter: anySale, order: order('casting'), ...window }),
  );
  await first('Sales of one source', () =>
    api.sales.window({ ...newest, filter: { ...anySale, source: 'Fair 7' }, ...window }),
  );
  await edit(13, 7);
  await first('Cars after one edit', () => api.cars.window({ ...allCars, ...window }));

  const ids = Array.from({ length: many }, (_, i) => i + 1);
  const bare = await bareUpdate();
  const bulk = async (work: string, run: () => Promise<unknown>) => {
    const { ms } = await timed(run);
    const beside = { what: 'bare SQLite', value: bare };
    measured({ work: `${work}${at}`, value: ms, unit: 'ms', beside, goal: 4, goalOf: 'ratio' });
  };
  const place = ids.map(id => ({ id, patch: { location: 'Barn' } }));
  await bulk(`${many} cars moved to a place`, () => api.cars.update({ changes: place }));
  await bulk('their undo', () => api.collection.undo());
  const grades = ids.map(id => ({ id, patch: { grade: 2 + (id % 15) / 2 } }));
  await bulk(`${many} cars graded, each otherwise`, () => api.cars.update({ changes: grades }));
  await bulk('their undo', () => api.collection.undo());

  // Else what the undo touched would be counted with what the record does.
  await api.collection.home();
  const sale = await timed(() =>
    api.sales.create({
      soldOn: '2026-02-03',
      price: 4200,
      currency: 'USD',
      castingId: 1,
      variationId: 1,
      grade: 6,
      source: 'auction',
    }),
  );
  measured({ work: `a new sale record${at}`, value: sale.ms, unit: 'ms', goal: null });
  await simple('Home after it, with the values of before', 50, () => api.collection.home());
  const anew = await timed(async () => {
    while ((await api.collection.home()).workingOut) await new Promise(resolve => setTimeout(resolve, 200));
  });
  measured({
    work: `all values after it${at}`,
    value: anew.ms,
    unit: 'ms',
    beside: { what: "the engine's own revaluation", value: engine.ms },
    goal: null,
  });
  await simple('collection closed', null, () => session.close());
  const again = serviceOn(dir);
  await simple('collection opened again', null, () => again.api.collection.open({ dir }));
  await simple('Home, opened again', 50, () => again.api.collection.home());
  await simple('Cars sorted by value, first rows, opened again', null, () =>
    again.api.cars.window({ ...allCars, order: order('found', true), ...window }),
  );
  await again.session.close();
} finally {
  rmSync(folder, { recursive: true, force: true });
}

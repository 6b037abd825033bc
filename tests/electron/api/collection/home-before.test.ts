import { expect, it, vi } from 'vitest';
import { listCars } from '../../../../db/records/cars/cars.ts';
import { homeView } from '../../../../electron/api/collection/home.ts';
import { warmUp } from '../../../../electron/api/collection/warm-up.ts';
import { createCache } from '../../../../electron/api/session/cache.ts';
import { recommendCar } from '../../../../valuation/decision/recommend-car.ts';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

vi.mock('../../../../valuation/decision/recommend-car.ts', { spy: true });
vi.mock('../../../../db/records/cars/cars.ts', { spy: true });

const many = 2100;

const anyCar = {
  ...{ lots: [], series: [], finish: [], grade: [], status: [], recommendation: [], rarity: [] },
  ...{ casting: null, variation: null, show: null, text: '' },
};
const byValue = {
  filter: anyCar,
  order: { sort: { columnId: 'found', descending: true }, since: '', locale: 'en-GB' },
  ...{ wall: false, from: 0, count: 3 },
};
const anyDecision = {
  ...{ lot: null, finish: [], below: null, not: [], recommendation: [], decided: null },
};

const manyCars = async () => {
  const service = await newCollectionService();
  const { variations, dovetail } = await addReference(service.api);
  const ids: number[] = [];
  for (let from = 0; from < many; from += 700)
    ids.push(
      ...(
        await service.api.cars.create({
          lotId: null,
          cars: Array.from({ length: 700 }, (_, i) => ({
            variationId: variations.emberTwin,
            grade: 3 + (i % 12) / 2,
          })),
        })
      ).ids,
    );
  const addSale = (price: number) =>
    service.api.sales.create({
      ...{ soldOn: '2026-01-05', price, currency: 'USD', castingId: dovetail },
      ...{ variationId: variations.emberTwin, grade: 8, source: 'auction' },
    });
  return { ...service, ids, addSale };
};

it('shows the values of before at once after a sale record among many cars, says so, and then the new ones', async () => {
  const { session, api, ids, addSale } = await manyCars();
  vi.mocked(listCars).mockClear();
  await warmUp(session);
  // Of so many cars nothing is read ahead.
  expect(vi.mocked(listCars)).not.toHaveBeenCalled();
  const before = await api.collection.home();
  expect(before.workingOut).toBeNull();
  const listBefore = { cars: await api.cars.facts(anyCar), decide: await api.decisions.facts(anyDecision) };
  const first = await api.cars.window(byValue);
  await addSale(90_000);
  vi.mocked(recommendCar).mockClear();
  const meanwhile = await api.collection.home();
  expect(meanwhile.workingOut).toEqual({ done: 0, of: many });
  expect(meanwhile.totals).toEqual(before.totals);
  expect(meanwhile.summary.counts.saleRecords).toBe(before.summary.counts.saleRecords + 1);
  // So do the lists, but their rows in sight are worked out first.
  const listNow = { cars: await api.cars.facts(anyCar), decide: await api.decisions.facts(anyDecision) };
  expect(listNow.cars).toEqual({ ...listBefore.cars, workingOut: { done: 0, of: many } });
  expect(listNow.decide).toEqual({ ...listBefore.decide, workingOut: { done: 0, of: many } });
  expect(vi.mocked(recommendCar)).not.toHaveBeenCalled();
  const rows = await api.cars.window(byValue);
  expect(rows.rows.map(({ id }) => id)).toEqual(first.rows.map(({ id }) => id));
  expect(rows.rows[0]!.worths!.asFound!.mid).toBeGreaterThan(first.rows[0]!.worths!.asFound!.mid);
  let last = meanwhile;
  for (let i = 0; last.workingOut && i < 10_000; i++) {
    await new Promise(resolve => setImmediate(resolve));
    last = await api.collection.home();
  }
  expect(last.totals.asFound.mid).toBeGreaterThan(before.totals.asFound.mid);
  // Cars that are alike are worked out once.
  expect(vi.mocked(recommendCar)).toHaveBeenCalledTimes(12);
  const listThen = await api.cars.facts(anyCar);
  expect(listThen.workingOut).toBeNull();
  expect(listThen.totals.asFound).toBeGreaterThan(listBefore.cars.totals.asFound);
  expect((await api.decisions.facts(anyDecision)).workingOut).toBeNull();
  expect(last).toEqual(await homeView({ ...session, collection: session.collection, cache: createCache() }));
  await api.cars.update({ changes: [{ id: ids[0]!, patch: { grade: 2 } }] });
  expect((await api.collection.home()).workingOut).toBeNull();
});

it('ends with the newest values where one sale record follows another', async () => {
  const { session, api, addSale } = await manyCars();
  await api.collection.home();
  for (const price of [90_000, 95_000, 99_000]) {
    await addSale(price);
    expect((await api.collection.home()).workingOut).not.toBeNull();
  }
  let last = await api.collection.home();
  for (let i = 0; last.workingOut && i < 10_000; i++) {
    await new Promise(resolve => setImmediate(resolve));
    last = await api.collection.home();
  }
  expect(last).toEqual(await homeView({ ...session, collection: session.collection, cache: createCache() }));
});

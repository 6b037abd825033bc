import { expect, it, vi } from 'vitest';
import { homeView } from '../../../../electron/api/collection/home.ts';
import { createCache } from '../../../../electron/api/session/cache.ts';
import { recommendCar } from '../../../../valuation/decision/recommend-car.ts';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

vi.mock('../../../../valuation/decision/recommend-car.ts', { spy: true });

const many = 2100;

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
  const before = await api.collection.home();
  expect(before.workingOut).toBeNull();
  await addSale(90_000);
  vi.mocked(recommendCar).mockClear();
  const meanwhile = await api.collection.home();
  expect(meanwhile.workingOut).toEqual({ done: 0, of: many });
  expect(meanwhile.totals).toEqual(before.totals);
  expect(meanwhile.summary.counts.saleRecords).toBe(before.summary.counts.saleRecords + 1);
  expect(vi.mocked(recommendCar)).not.toHaveBeenCalled();
  let last = meanwhile;
  for (let i = 0; last.workingOut && i < 10_000; i++) {
    await new Promise(resolve => setImmediate(resolve));
    last = await api.collection.home();
  }
  expect(last.totals.asFound.mid).toBeGreaterThan(before.totals.asFound.mid);
  // Cars that are alike are worked out once.
  expect(vi.mocked(recommendCar)).toHaveBeenCalledTimes(12);
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

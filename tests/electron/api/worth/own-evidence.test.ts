import { describe, expect, it } from 'vitest';
import { marketToday } from '../../../../electron/api/figures/market.ts';
import type { CarPatch } from '../../../../electron/api/views.ts';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';

/** A reference without a single sale record. */
const young = async () => {
  const service = await newCollectionService();
  const reference = await addReference(service.api);
  const sales = await service.api.sales.list({});
  for (const { id } of sales) await service.api.sales.remove({ ids: [id] });
  const [casting] = await service.api.reference.castings();
  const seriesId = casting?.seriesId ?? 0;
  return { ...service, ...reference, seriesId };
};

const lotOf = async (
  api: Api,
  { price, name = 'Tin', boughtOn = '2026-01-10' }: { price: number; name?: string; boughtOn?: string },
  cars: { variationId?: number; castingId?: number; grade: number | null }[],
) => {
  const { id } = await api.lots.create({
    name,
    boughtOn,
    currency: 'USD',
    costs: [
      { kind: 'price', minor: price - 100, note: '' },
      { kind: 'carriage', minor: 100, note: '' },
    ],
  });
  const { ids } = await api.cars.create({ lotId: id, cars });
  return { lotId: id, carIds: ids };
};

const change = (api: Api, id: number, patch: CarPatch) => api.cars.update({ changes: [{ id, patch }] });

const explained = (api: Api, carId: number) => api.worth.explain({ carId, which: 'asFound' });

describe('what was paid', () => {
  it('values cars that no sale record speaks of, and is labelled in the evidence', async () => {
    const { api, variations } = await young();
    const { carIds } = await lotOf(api, { price: 20_000 }, [
      { variationId: variations.emberTwin, grade: 8 },
      { variationId: variations.mossBar, grade: 4 },
    ]);
    await lotOf(api, { price: 6000, name: 'One' }, [{ variationId: variations.emberBar, grade: 7 }]);
    const { worth, evidence, records } = await explained(api, carIds[0] ?? 0);
    expect(worth).not.toBeNull();
    expect(evidence.kinds).toMatchObject({ purchases: 1, lots: 1, beliefs: 0 });
    expect(evidence.kinds?.shares.sale).toBe(0);
    const lot = records.filter(({ from }) => from?.kind === 'lot');
    expect(lot).toHaveLength(2);
    expect(lot[0]).toMatchObject({
      soldOn: '2026-01-10',
      lot: 'Tin',
      grade: 8,
      from: { total: 20_000, cars: 2 },
    });
    expect(records.find(({ from }) => from?.kind === 'purchase')).toMatchObject({ price: 6000, lot: 'One' });
    const list = await resultOf(await api.worth.list({}));
    expect(list.cars[0]?.evidence.kinds?.lots).toBe(1);
  });

  it('waits for all cars of a lot to be identified, and does not count what stands among the sale records', async () => {
    const { api, session, variations, dovetail } = await young();
    const { carIds } = await lotOf(api, { price: 9000 }, [
      { variationId: variations.emberTwin, grade: 8 },
      { grade: 5 },
    ]);
    expect((await marketToday(session)).ownAside[0]?.cause).toEqual({ kind: 'unidentified-cars', cars: 1 });
    await change(api, carIds[1] ?? 0, { castingId: dovetail });
    expect((await marketToday(session)).ownAside).toEqual([]);
    await api.sales.create({
      soldOn: '2026-01-10',
      price: 8900,
      currency: 'USD',
      castingId: dovetail,
      variationId: variations.emberTwin,
      grade: 8,
    });
    expect((await marketToday(session)).ownAside[0]?.cause.kind).toBe('entered-as-sale');
  });

  it('of a restored car tells nothing unless a check from then says how it was', async () => {
    const { api, session, variations } = await young();
    const { carIds } = await lotOf(api, { price: 3000 }, [{ variationId: variations.emberTwin, grade: 9 }]);
    await change(api, carIds[0] ?? 0, { finishState: 'restored' });
    expect((await marketToday(session)).ownAside[0]?.cause).toEqual({ kind: 'changed-cars', cars: 1 });
    await api.cars.saveCheck({
      carId: carIds[0] ?? 0,
      checkedOn: '2026-01-20',
      grade: 9,
      notes: '',
      parts: [],
    });
    expect((await marketToday(session)).ownAside).toEqual([]);
  });

  it('takes the grade that a car was given later where its first check has none', async () => {
    const { api, session, variations } = await young();
    const { carIds } = await lotOf(api, { price: 3000 }, [
      { variationId: variations.emberTwin, grade: null },
    ]);
    await api.cars.saveCheck({
      carId: carIds[0] ?? 0,
      checkedOn: '2026-01-20',
      grade: null,
      notes: '',
      parts: [{ part: 'packaging', grade: null, originality: 'original', note: '' }],
    });
    await change(api, carIds[0] ?? 0, { grade: 9 });
    expect((await marketToday(session)).inside.sales.map(({ record }) => record.grade)).toEqual([9]);
  });

  it('leaves the fit as it was after an edit that says nothing of it', async () => {
    const { api, session, variations } = await young();
    const { carIds } = await lotOf(api, { price: 3000 }, [{ variationId: variations.emberTwin, grade: 9 }]);
    const before = await marketToday(session);
    await change(api, carIds[0] ?? 0, { location: 'Drawer 3' });
    expect(await marketToday(session)).toBe(before);
    await change(api, carIds[0] ?? 0, { grade: 5 });
    expect(await marketToday(session)).not.toBe(before);
  });
});

describe('beliefs', () => {
  const belief = { level: 'casting' as const, grade: 8, low: 6000, high: 9000 };

  it('are saved, changed and taken back, one action and one undo each', async () => {
    const { api, dovetail, oxbow } = await young();
    const { id } = await api.beliefs.save({ ...belief, of: dovetail, note: 'fairs' });
    expect(await api.beliefs.list()).toMatchObject([
      {
        id,
        name: 'Dovetail',
        finishState: 'original',
        currency: 'USD',
        believedOn: '2026-03-14',
        note: 'fairs',
        aside: null,
        against: { count: 0, verdict: { kind: 'none-sold' } },
      },
    ]);
    await api.beliefs.save({ ...belief, id, of: oxbow, high: 9900 });
    expect(await api.beliefs.list()).toMatchObject([{ id, name: 'Oxbow', high: 9900 }]);
    // The same thing said again takes the place of what was said before.
    expect((await api.beliefs.save({ ...belief, of: oxbow, low: 5000 })).id).toBe(id);
    await api.beliefs.remove({ id });
    expect(await api.beliefs.list()).toEqual([]);
    await api.collection.undo();
    expect(await api.beliefs.list()).toMatchObject([{ low: 5000, high: 9000 }]);
    await api.collection.undo();
    expect(await api.beliefs.list()).toMatchObject([{ high: 9900 }]);
    await api.collection.undo();
    await api.collection.undo();
    expect(await api.beliefs.list()).toEqual([]);
  });

  it('value cars, are labelled, and are held against the sales that come', async () => {
    const { api, variations, seriesId, dovetail } = await young();
    const { ids } = await api.cars.create({
      lotId: null,
      cars: [{ variationId: variations.emberTwin, grade: 8 }],
    });
    await api.beliefs.save({ ...belief, level: 'series', of: seriesId });
    const { worth, evidence, records } = await explained(api, ids[0] ?? 0);
    expect(worth?.mid).toBe(7348);
    expect(evidence.kinds?.shares).toEqual({ sale: 0, purchase: 0, lot: 0, belief: 1 });
    expect(records).toMatchObject([
      {
        from: { kind: 'belief', level: 'series' },
        soldOn: '2026-03-14',
        believed: { low: 6000, high: 9000 },
      },
    ]);
    const [before] = await api.beliefs.list();
    await api.beliefs.save({
      ...belief,
      id: before?.id,
      level: 'series',
      of: seriesId,
      believedOn: '2026-01-01',
    });
    for (const day of [1, 2, 3, 4, 5, 6])
      await api.sales.create({
        soldOn: `2026-03-0${day}`,
        price: 20_000 + 300 * day,
        currency: 'USD',
        castingId: dovetail,
        variationId: variations.emberTwin,
        grade: 8,
      });
    const [held] = await api.beliefs.list();
    expect(held?.against).toMatchObject({ count: 6, coverage: 0, verdict: { kind: 'wrong' } });
    expect(held?.against?.bias).toBeGreaterThan(1.5);
  });

  it('are refused where they make no sense', async () => {
    const { api, dovetail } = await young();
    expect((await refusalOf(api.beliefs.save({ ...belief, of: 999 }))).message).toContain('no such casting');
    expect((await refusalOf(api.beliefs.save({ ...belief, of: dovetail, low: 9500 }))).code).toBe(
      'BAD_REQUEST',
    );
    expect((await refusalOf(api.beliefs.save({ ...belief, id: 77, of: dovetail }))).code).toBe('NOT_FOUND');
    expect((await refusalOf(api.beliefs.remove({ id: 77 }))).code).toBe('NOT_FOUND');
  });

  it('are added by name, and rows that are not understood are told with the reason', async () => {
    const { api } = await young();
    const row = { grade: 'C8', low: '60', high: '90.00' };
    const { added, rejected } = await api.beliefs.add({
      rows: [
        { ...row, casting: 'dovetail' },
        { ...row, casting: 'Dovetail', variation: 'moss bar lamp' },
        { ...row, series: 'Slipwinds', finish: 'restored', currency: 'EUR' },
        { ...row, casting: 'Gadfly' },
        { ...row, casting: 'Dovetail', variation: 'Ember' },
        { ...row, casting: 'Dovetail', grade: 'nice' },
        { ...row, casting: 'Dovetail', low: '95' },
        row,
      ],
    });
    expect(added).toBe(3);
    expect(rejected.map(({ row: at }) => at)).toEqual([4, 5, 6, 7, 8]);
    expect(rejected[1]?.reason).toContain('fits 2 variations');
    expect(await api.beliefs.list()).toMatchObject([
      { level: 'casting', low: 6000, high: 9000 },
      { level: 'variation', name: expect.stringContaining('Moss') },
      { level: 'series', finishState: 'restored', currency: 'EUR', aside: { kind: 'no-rate' } },
    ]);
  });
});

import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';

const withCar = async (grade = 6) => {
  const service = await newCollectionService();
  const reference = await addReference(service.api);
  const { ids } = await service.api.cars.create({
    lotId: null,
    cars: [{ variationId: reference.variations.emberTwin, grade }],
  });
  return { ...service, ...reference, carId: ids[0] ?? 0 };
};

describe('sale records', () => {
  it('change only what is given, and fall back to the casting with another casting', async () => {
    const { api, dovetail, oxbow } = await withCar();
    const [sale] = await api.sales.list({ castingId: dovetail });
    const id = sale?.id ?? 0;
    await api.sales.update({ id, price: 9900, grade: 7.5 });
    const after = (await api.sales.list({})).find(row => row.id === id);
    expect(after).toEqual({ ...sale, price: 9900, grade: 7.5, doubt: null });
    await api.sales.update({ id, castingId: oxbow });
    expect((await api.sales.list({})).find(row => row.id === id)).toMatchObject({
      casting: 'Oxbow',
      variationId: null,
    });
  });

  it('change many at once in one action, or none of them', async () => {
    const { api, dovetail } = await withCar();
    const before = await api.sales.list({ castingId: dovetail });
    const [first, second] = before.map(sale => sale.id);
    const changes = [
      { id: first ?? 0, patch: { grade: 5, missingParts: ['glazing' as const] } },
      { id: second ?? 0, patch: { grade: 5 } },
    ];
    await api.sales.updateMany({ changes });
    const after = await api.sales.list({ castingId: dovetail });
    expect(after.slice(0, 2).map(sale => [sale.grade, sale.missingParts])).toEqual([
      [5, ['glazing']],
      [5, []],
    ]);
    await api.collection.undo();
    expect(await api.sales.list({ castingId: dovetail })).toEqual(before);
    const bad = [...changes, { id: 99_999, patch: { grade: 4 } }];
    expect((await refusalOf(api.sales.updateMany({ changes: bad }))).code).toBe('NOT_FOUND');
    expect(await api.sales.list({ castingId: dovetail })).toEqual(before);
  });

  it('say how far each counts', async () => {
    const { api, dovetail, variations } = await withCar();
    const sale = { soldOn: '2026-02-01', castingId: dovetail, variationId: variations.emberTwin, grade: 6 };
    const { id: foreign } = await api.sales.create({ ...sale, price: 5000, currency: 'EUR' });
    const { id: wild } = await api.sales.create({ ...sale, price: 1_200_000, currency: 'USD' });
    const { id: gift } = await api.sales.create({ ...sale, price: 100, currency: 'USD' });
    await api.sales.exclude({ ids: [gift], excluded: true });
    const rows = await api.sales.list({});
    const state = (id: number) => rows.find(row => row.id === id)?.state;
    expect([foreign, wild, gift].map(state)).toEqual(['set aside', 'doubtful', 'left out']);
    expect(rows.filter(row => row.state === 'counted')).toHaveLength(18);
  });

  it('refuse a variation of another casting and a price of nothing', async () => {
    const { api, oxbow, variations } = await withCar();
    const sale = { soldOn: '2026-01-01', price: 100, currency: 'USD', castingId: oxbow };
    expect(
      (await refusalOf(api.sales.create({ ...sale, variationId: variations.emberBar }))).message,
    ).toContain('another casting');
    const free = await refusalOf(api.sales.create({ ...sale, price: 0 }));
    expect(free).toMatchObject({ code: 'BAD_REQUEST' });
    expect(free.message).toBe('This cannot be used: price: enter a price of more than zero.');
  });

  it('move the worths that rest on them, and not when they are left out', async () => {
    const { api, carId, dovetail, variations } = await withCar();
    const worth = async () => (await api.cars.get({ id: carId })).worths.asFound?.mid ?? 0;
    const before = await worth();
    const { id } = await api.sales.create({
      soldOn: '2026-03-01',
      price: 14_000,
      currency: 'USD',
      castingId: dovetail,
      variationId: variations.emberTwin,
      grade: 6,
      source: 'auction',
    });
    const higher = await worth();
    expect(higher).toBeGreaterThan(before);
    await api.sales.exclude({ ids: [id], excluded: true, why: 'a gift to a friend' });
    expect(await worth()).toBe(before);
    expect((await api.sales.list({})).find(row => row.id === id)).toMatchObject({
      excluded: true,
      excludedWhy: 'a gift to a friend',
    });
    await api.sales.exclude({ ids: [id], excluded: false });
    expect(await worth()).toBe(higher);
    await api.collection.undo();
    expect(await worth()).toBe(before);
  });

  it('say why the engine set one aside', async () => {
    const { api, dovetail } = await withCar();
    const { id } = await api.sales.create({
      soldOn: '2026-02-01',
      price: 5000,
      currency: 'EUR',
      castingId: dovetail,
    });
    const doubt = async () => (await api.sales.list({})).find(row => row.id === id)?.doubt;
    expect(await doubt()).toMatchObject({ cause: { kind: 'no-rate', currency: 'EUR' } });
    await api.collection.saveRate({ currency: 'EUR', on: '2026-01-01', rate: '1.16' });
    expect(await doubt()).toBeNull();
  });
});

describe('selling a car', () => {
  it('becomes a sale record of its own, and taking it back takes all back', async () => {
    const { api, carId, variations, dovetail } = await withCar(6.5);
    const parts = [
      { part: 'wheels' as const, grade: 6, originality: 'reproduction' as const },
      { part: 'glazing' as const, grade: null, originality: 'missing' as const },
    ];
    await api.cars.saveCheck({ carId, checkedOn: '2026-01-05', grade: 6.5, parts });
    await api.cars.dispose({
      carId,
      soldOn: '2026-02-02',
      proceeds: 4200,
      fees: 420,
      currency: 'USD',
      venue: 'Grange Hall',
    });
    const [own] = await api.sales.list({});
    expect(own).toMatchObject({
      own: true,
      soldOn: '2026-02-02',
      price: 4200,
      castingId: dovetail,
      variationId: variations.emberTwin,
      grade: 6.5,
      missingParts: ['glazing'],
      reproductionParts: ['wheels'],
      source: 'own sale',
      reference: '0001',
    });
    expect(await api.cars.get({ id: carId })).toMatchObject({
      status: 'sold',
      disposal: { proceeds: 4200, venue: 'Grange Hall', gain: null },
    });
    expect((await refusalOf(api.sales.remove({ ids: [own?.id ?? 0] }))).message).toContain('your own sale');
    expect((await refusalOf(api.sales.update({ id: own?.id ?? 0, price: 1 }))).message).toContain('own sale');
    const kept = api.cars.update({ changes: [{ id: carId, patch: { status: 'kept' } }] });
    expect((await refusalOf(kept)).message).toContain('has been sold');
    const again = api.cars.dispose({ carId, soldOn: '2026-02-03', proceeds: 1, currency: 'USD' });
    expect((await refusalOf(again)).message).toContain('sold already');

    await api.cars.undispose({ id: carId });
    expect((await api.sales.list({})).filter(sale => sale.own)).toEqual([]);
    expect(await api.cars.get({ id: carId })).toMatchObject({ status: 'kept', disposal: null });
    expect(await api.collection.undo()).toEqual({ label: 'Undid the sale of 0001' });
    expect((await api.sales.list({})).filter(sale => sale.own)).toEqual([own]);
    expect(await api.collection.undo()).toEqual({ label: 'Sold 0001' });
    expect((await api.sales.list({})).filter(sale => sale.own)).toEqual([]);
  });

  it('follows the car when it is identified later', async () => {
    const { api, variations } = await withCar();
    const { ids } = await api.cars.create({ lotId: null, cars: [{ asWritten: { casting: 'Whoosh' } }] });
    const carId = ids[0] ?? 0;
    await api.cars.dispose({ carId, soldOn: '2026-02-02', proceeds: 900, currency: 'USD' });
    const own = async () => (await api.sales.list({})).find(sale => sale.own);
    expect(await own()).toMatchObject({ castingId: null, casting: 'Whoosh' });
    await api.cars.update({ changes: [{ id: carId, patch: { variationId: variations.skyOxbow } }] });
    expect(await own()).toMatchObject({ casting: 'Oxbow', variationId: variations.skyOxbow });
  });

  it('tells nothing of the market when the car was given away', async () => {
    const { api, carId } = await withCar();
    await api.cars.dispose({ carId, soldOn: '2026-02-02', proceeds: 0, currency: 'USD' });
    expect((await api.sales.list({})).some(sale => sale.own)).toBe(false);
    expect((await api.cars.get({ id: carId })).status).toBe('sold');
  });

  it('gains proceeds less fees, cost and spending, in one currency', async () => {
    const { api, variations } = await withCar();
    const { id: lotId } = await api.lots.create({
      name: 'One',
      currency: 'USD',
      costs: [{ kind: 'price', minor: 10_000 }],
    });
    const { ids } = await api.cars.create({ lotId, cars: [{ variationId: variations.emberBar }] });
    const carId = ids[0] ?? 0;
    await api.cars.addExpense({
      carId,
      spentOn: '2026-01-01',
      what: 'Restoration',
      minor: 6000,
      currency: 'USD',
    });
    await api.cars.dispose({ carId, soldOn: '2026-02-02', proceeds: 20_000, currency: 'USD' });
    // Bought for 10,000, improved for 6,000, sold for 20,000: a gain of 4,000 (26 CFR 1.1016-2, example).
    expect((await api.cars.get({ id: carId })).disposal?.gain).toBe(4000);
    await api.cars.addExpense({ carId, spentOn: '2026-01-01', what: 'Decals', minor: 5, currency: 'EUR' });
    expect((await api.cars.get({ id: carId })).disposal?.gain).toBeNull();
  });
});

describe('worths', () => {
  it('open to the records behind them, whose weights are shares', async () => {
    const { api, carId } = await withCar();
    const page = await api.cars.get({ id: carId });
    for (const which of ['asFound', 'restored', 'originalFinish'] as const) {
      const explained = await api.worth.explain({ carId, which });
      expect(explained.worth).toEqual(page.worths[which]);
      expect(explained.records).toHaveLength(18);
      expect(explained.records.reduce((sum, record) => sum + record.weight, 0)).toBeCloseTo(1, 6);
      const [first] = explained.records;
      const factors = first?.adjustments.reduce((product, line) => product * line.factor, 1) ?? 0;
      expect(Math.abs((first?.price ?? 0) * factors - (first?.adjusted ?? 0))).toBeLessThanOrEqual(0.5);
    }
    const { evidence } = await api.worth.explain({ carId, which: 'asFound' });
    expect(evidence).toMatchObject({ sales: 3, castingSales: 15 });
  });

  it('are the same in lists, on the page and from the whole list', async () => {
    const { api, carId } = await withCar();
    const [row] = await api.cars.list({});
    const page = await api.cars.get({ id: carId });
    expect(page.worths).toEqual(row?.worths);
    expect(page.decision.recommendation).toBe(row?.recommendation);
    expect(page.decision.expectedGain).toBe(row?.expectedGain);
    expect(page.decision.probability).toBe(row?.probability);
    const list = await resultOf(await api.worth.list({}));
    expect(list).toMatchObject({ on: '2026-03-14', currency: 'USD' });
    expect(list.cars[0]?.asFound?.mid).toBe(row?.worths.asFound?.mid);
  });

  it('give way to the owner’s own figure where there is no evidence', async () => {
    const { api } = await newCollectionService();
    const { ids } = await api.cars.create({ lotId: null, cars: [{ grade: 5 }] });
    const id = ids[0] ?? 0;
    expect(await api.cars.get({ id })).toMatchObject({
      worths: { asFound: null },
      recommendation: 'not-enough-evidence',
      probability: null,
      expectedGain: null,
      plan: null,
    });
    expect((await api.cars.get({ id })).help.length).toBeGreaterThan(0);
    const ownWorth = { low: 1000, mid: 1500, high: 2500 };
    const { rows } = await api.cars.update({ changes: [{ id, patch: { ownWorth } }] });
    expect(rows[0]?.worths.asFound).toMatchObject({ ...ownWorth, own: true });
    const wrong = api.cars.update({ changes: [{ id, patch: { ownWorth: { low: 0, mid: 0, high: 0 } } }] });
    expect((await refusalOf(wrong)).code).toBe('BAD_REQUEST');
  });

  it('are kept on a day, replace that day’s, and are judged by what was realised', async () => {
    const { api, carId, clock } = await withCar();
    expect(await api.worth.takeSnapshot({ on: '2026-01-31' })).toEqual({ cars: 1, on: '2026-01-31' });
    await api.worth.takeSnapshot({ on: '2026-01-31' });
    const { valuations, worths } = await api.cars.get({ id: carId });
    expect(valuations).toHaveLength(1);
    expect((await api.collection.home()).overTime).toEqual([
      { on: '2026-01-31', asFound: valuations[0]?.asFound?.mid, cars: 1 },
    ]);
    expect((await refusalOf(api.worth.takeSnapshot({ on: '2026-03-15' }))).message).toContain('future date');
    await api.cars.dispose({ carId, soldOn: '2026-02-10', proceeds: 5000, currency: 'USD' });
    clock.now = new Date(2026, 5, 1);
    const { pairs, verdict } = await api.worth.diagnostics();
    expect(pairs).toEqual([
      {
        carId,
        inventoryNumber: '0001',
        valuedOn: '2026-01-31',
        ...valuations[0]?.asFound,
        soldOn: '2026-02-10',
        realised: 5000,
      },
    ]);
    expect(verdict).toEqual({ kind: 'too-few', count: pairs.length });
    expect(worths.asFound).not.toBeNull();
  });

  it('follow the day: older records count less, and in the end are not enough', async () => {
    const { api, carId, clock } = await withCar();
    const worth = async () => (await api.cars.get({ id: carId })).worths.asFound;
    const width = async () => {
      const { low, high } = (await worth()) ?? { low: Number.NaN, high: Number.NaN };
      return Math.log(high / low);
    };
    const now = await width();
    clock.now = new Date(2036, 2, 14);
    expect(await width()).toBeGreaterThan(now);
    clock.now = new Date(2116, 2, 14);
    expect(await worth()).toBeNull();
  });
});

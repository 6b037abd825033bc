import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';

const kinds = ['price', 'premium', 'tax'] as const;
const costs = (...minors: number[]) =>
  minors.map((minor, i) => ({ kind: kinds[i] ?? ('other' as const), minor, note: '' }));

const filledLot = async (api: Api, minor = 10_001) => {
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD', costs: costs(minor) });
  const { ids } = await api.cars.create({
    lotId,
    cars: [
      { variationId: variations.emberTwin, grade: 8 },
      { variationId: variations.mossTwin, grade: 3 },
      { asWritten: { casting: 'Whoosh' } },
    ],
  });
  return { lotId, ids: ids as [number, number, number], variations };
};

const sharesOf = async (api: Api, lotId: number) =>
  (await api.lots.get({ id: lotId })).rows.map(row => row.cost);

describe('sharing what a lot cost', () => {
  it('shares by worth, gives the unknown the mean, and sums to the cent', async () => {
    const { api } = await newCollectionService();
    const { lotId } = await filledLot(api);
    const page = await api.lots.get({ id: lotId });
    const [good, poor, unknown] = page.rows.map(row => row.cost ?? 0) as [number, number, number];
    const [w1, w2] = page.rows.map(row => row.worths.asFound?.mid ?? 0) as [number, number];
    expect(good + poor + unknown).toBe(10_001);
    expect(page.shared).toBe(page.cost);
    expect(good).toBeGreaterThan(poor);
    const mean = (w1 + w2) / 2;
    expect(Math.abs(unknown - (10_001 * mean) / (w1 + w2 + mean))).toBeLessThan(1);
    expect(Math.abs(good - (10_001 * w1) / (w1 + w2 + mean))).toBeLessThan(1);
  });

  it('keeps shares fixed by hand and shares the rest', async () => {
    const { api } = await newCollectionService();
    const { lotId, ids } = await filledLot(api);
    const page = await api.lots.shareCost({ id: lotId, fixed: [{ carId: ids[1], minor: 5000 }] });
    expect(page.rows.map(row => row.costFixed)).toEqual([false, true, false]);
    expect(page.rows[1]?.cost).toBe(5000);
    expect(page.shared).toBe(10_001);
    await api.lots.update({ id: lotId, costs: costs(12_000, 3000) });
    const after = await api.lots.get({ id: lotId });
    expect(after.rows[1]?.cost).toBe(5000);
    expect(after.shared).toBe(15_000);
    const free = await api.lots.shareCost({ id: lotId, fixed: [{ carId: ids[1], minor: null }] });
    expect(free.rows.map(row => row.costFixed)).toEqual([false, false, false]);
    expect(free.shared).toBe(15_000);
  });

  it('refuses fixed shares that cannot stand, and changes nothing', async () => {
    const { api } = await newCollectionService();
    const { lotId, ids } = await filledLot(api);
    const before = await sharesOf(api, lotId);
    const much = api.lots.shareCost({ id: lotId, fixed: [{ carId: ids[0], minor: 10_002 }] });
    expect((await refusalOf(much)).message).toContain('more than the lot cost');
    const all = api.lots.shareCost({ id: lotId, fixed: ids.map(carId => ({ carId, minor: 1 })) });
    expect((await refusalOf(all)).message).toContain('Let one be shared');
    const stranger = api.lots.shareCost({ id: lotId, fixed: [{ carId: 999, minor: 1 }] });
    expect((await refusalOf(stranger)).message).toContain('not in this lot');
    expect(await sharesOf(api, lotId)).toEqual(before);
  });

  it('always sums to the cost as cars come, go and move, and costs change', async () => {
    const step = fc.record({
      kind: fc.constantFrom('add', 'remove', 'move', 'cost', 'fix'),
      lot: fc.nat(1),
      n: fc.nat(200_000),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 6 }), async steps => {
        // A fresh collection for each run, so that what is found is found again and shrinks.
        const { api } = await newCollectionService();
        const { variations } = await addReference(api);
        const { id: a } = await api.lots.create({ name: 'A', currency: 'USD', costs: costs(9_999) });
        const { id: b } = await api.lots.create({ name: 'B', currency: 'EUR', costs: costs(77) });
        const lots = [a, b] as const;
        const known = Object.values(variations);
        const cost = new Map([
          [a, 9_999],
          [b, 77],
        ]);
        for (const { kind, lot: which, n } of steps) {
          const lot = which === 0 ? a : b;
          const rows = await api.cars.list({ lotId: lot });
          const one = rows[n % Math.max(1, rows.length)];
          if (kind === 'add')
            await api.cars.create({ lotId: lot, cars: [{ variationId: known[n % known.length] ?? null }] });
          else if (kind === 'cost') {
            cost.set(lot, n);
            await api.lots.update({ id: lot, costs: costs(n) });
          } else if (one && kind === 'remove') await api.cars.remove({ ids: [one.id] });
          else if (one && kind === 'move')
            await api.cars.update({
              changes: [{ id: one.id, patch: { lotId: lot === a ? b : a } }],
            });
          else if (one && kind === 'fix' && rows.length > 1)
            await api.lots.shareCost({
              id: lot,
              fixed: [
                ...rows.map(row => ({ carId: row.id, minor: null })),
                { carId: one.id, minor: n % ((cost.get(lot) ?? 0) + 1) },
              ],
            });
          for (const id of lots) {
            const shares = await sharesOf(api, id);
            if (shares.length > 0)
              expect(shares.reduce<number>((sum, share) => sum + (share ?? Number.NaN), 0)).toBe(
                cost.get(id),
              );
          }
        }
      }),
      { numRuns: 12 },
    );
  });

  it('leaves cars without a share where no cost is entered', async () => {
    const { api } = await newCollectionService();
    const { id } = await api.lots.create({ name: 'Gift', currency: 'USD' });
    await api.cars.create({ lotId: id, cars: [{}, {}] });
    expect(await sharesOf(api, id)).toEqual([null, null]);
    await api.lots.update({ id, costs: costs(0) });
    expect(await sharesOf(api, id)).toEqual([0, 0]);
    await api.lots.update({ id, costs: [] });
    expect(await sharesOf(api, id)).toEqual([null, null]);
  });
});

describe('a lot', () => {
  it('changes only what is given', async () => {
    const { api } = await newCollectionService();
    const { id } = await api.lots.create({
      name: 'Loft',
      boughtOn: '2025-05-05',
      seller: 'Attic and Axle',
      currency: 'GBP',
      costs: costs(100, 20),
      notes: 'two boxes',
    });
    await api.lots.update({ id, name: 'Attic' });
    expect(await api.lots.get({ id })).toMatchObject({
      name: 'Attic',
      boughtOn: '2025-05-05',
      seller: 'Attic and Axle',
      currency: 'GBP',
      cost: 120,
      price: 100,
      notes: 'two boxes',
    });
  });

  it('goes without its cars, which lose their share', async () => {
    const { api } = await newCollectionService();
    const { lotId, ids } = await filledLot(api);
    await api.lots.remove({ id: lotId });
    expect((await api.cars.list({})).map(car => [car.id, car.lotId, car.cost])).toEqual(
      ids.map(id => [id, null, null]),
    );
    await api.collection.undo();
    expect((await api.lots.get({ id: lotId })).shared).toBe(10_001);
  });

  it('counts what is done and sums what is known', async () => {
    const { api } = await newCollectionService();
    const { ids } = await filledLot(api);
    await api.cars.dispose({
      carId: ids[0],
      soldOn: '2026-02-01',
      proceeds: 6000,
      fees: 500,
      currency: 'USD',
    });
    const [row] = await api.lots.list();
    expect(row).toMatchObject({
      carCount: 3,
      gradedCount: 2,
      identifiedCount: 2,
      photographedCount: 0,
      soldCount: 1,
      valuedCount: 1,
    });
    const page = await api.lots.get({ id: row?.id ?? 0 });
    expect(row?.worth).toBe(page.rows[1]?.worths.asFound?.mid);
    const soldCost = page.rows[0]?.cost ?? 0;
    // Of the car that is left, as it was worked out when this was written.
    const remainingWorth = 3145;
    expect(row?.worth).toBe(remainingWorth);
    expect(page.result).toEqual({
      cost: 10_001,
      improvements: 0,
      proceeds: 6000,
      fees: 500,
      gainRealised: 6000 - 500 - soldCost,
      gain: 6000 - 500 - 10_001 + remainingWorth,
      remainingWorth,
      unvalued: 1,
      currency: 'USD',
      withoutRate: [],
    });
  });

  it('says which rate its result lacks instead of adding currencies up', async () => {
    const { api } = await newCollectionService();
    const { id } = await api.lots.create({
      name: 'Abroad',
      boughtOn: '2026-01-10',
      currency: 'BHD',
      costs: costs(10_000),
    });
    await api.cars.create({ lotId: id, cars: [{}] });
    expect((await api.lots.get({ id })).result).toMatchObject({ cost: 0, withoutRate: ['BHD'] });
    await api.collection.saveRate({ currency: 'BHD', on: '2026-01-01', rate: '2.65' });
    // Ten dinars of a thousand fils at 2.65 dollars: 26.50 dollars.
    expect((await api.lots.get({ id })).result).toMatchObject({ cost: 2650, withoutRate: [] });
  });

  it('is bid for up to what leaves the margin', async () => {
    const { api } = await newCollectionService();
    const { lotId } = await filledLot(api);
    const wish = { lotId, margin: 0.2, probability: 0.8, premiumRate: 0.25, taxRate: 0.08, carriage: 500 };
    const bid = await api.lots.bid(wish);
    expect(bid.total).toBe(
      bid.bid + Math.ceil(bid.bid * 0.25) + Math.ceil((bid.bid + Math.ceil(bid.bid * 0.25)) * 0.08) + 500,
    );
    expect(bid.probability).toBeGreaterThanOrEqual(0.8);
    expect(bid).toMatchObject({ withoutWorth: 1, margin: 0.2 });
    expect((await api.lots.bid({ ...wish, margin: 0.5 })).bid).toBeLessThan(bid.bid);
    expect((await refusalOf(api.lots.bid({ margin: 0.2 }))).message).toContain('a lot, or on a choice');
  });

  it('keeps the terms of its bid, by which its figure and its sheet are made again', async () => {
    const { api } = await newCollectionService();
    const { lotId } = await filledLot(api);
    expect((await api.lots.get({ id: lotId })).bid).toBeNull();
    const usual = await api.lots.bid({ lotId });
    expect(usual).toEqual(await api.lots.bid({ lotId, margin: 0.2, probability: 0.8 }));
    const terms = { margin: 0.3, probability: 0.7, premiumRate: 0.25, taxRate: 0.08, carriage: 500 };
    await api.lots.saveBid({ id: lotId, ...terms });
    expect((await api.lots.get({ id: lotId })).bid).toEqual(terms);
    expect(await api.lots.bid({ lotId })).toEqual(await api.lots.bid({ lotId, ...terms }));
    expect(await api.lots.bid({ lotId, carriage: 0 })).toEqual(
      await api.lots.bid({ lotId, ...terms, carriage: 0 }),
    );
    await api.collection.undo();
    expect(await api.lots.bid({ lotId })).toEqual(usual);
    expect((await refusalOf(api.lots.saveBid({ id: 99, ...terms }))).message).toContain('no lot 99');
  });

  it('that was seen becomes the lot when it is bought, with its cars, by one action that one undo takes back', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    const { id: lotId } = await api.lots.create({ name: 'Seen tray', currency: 'USD' });
    await api.cars.create({
      lotId,
      cars: [
        { variationId: variations.emberTwin, grade: 8, notes: 'left of the tray' },
        { asWritten: { casting: 'Whoosh' } },
      ],
    });
    const terms = { margin: 0.2, probability: 0.8, premiumRate: 0.25, taxRate: 0.07, carriage: 650 };
    await api.lots.saveBid({ id: lotId, ...terms });
    const seen = await api.lots.get({ id: lotId });
    expect(seen).toMatchObject({ boughtOn: null, costs: [], cost: 0 });
    const { premiumRate, taxRate, carriage } = terms;
    const bought = { id: lotId, boughtOn: '2026-02-03', price: 4000, premiumRate, taxRate, carriage };
    const page = await api.lots.buy(bought);
    expect(page).toMatchObject({ name: 'Seen tray', boughtOn: '2026-02-03', cost: 4000 + 1000 + 350 + 650 });
    expect(page.costs).toEqual([
      { kind: 'price', minor: 4000, note: '' },
      { kind: 'premium', minor: 1000, note: '' },
      { kind: 'tax', minor: 350, note: '' },
      { kind: 'carriage', minor: 650, note: '' },
    ]);
    expect(page.shared).toBe(6000);
    const known = ({ id, inventoryNumber, notes, grade }: (typeof page.rows)[number]) => ({
      id,
      inventoryNumber,
      notes,
      grade,
    });
    expect(page.rows.map(known)).toEqual(seen.rows.map(known));
    expect((await refusalOf(api.lots.buy(bought))).message).toBe(
      'What Seen tray cost is entered already. Change it under its details and cost.',
    );
    await api.collection.undo();
    expect(await api.lots.get({ id: lotId })).toEqual(seen);
  });
});

it('what single cars of a list cost stays unknown where it is not told, whatever is shared later', async () => {
  const { api } = await newCollectionService();
  const file = new File(
    ['Car,Paid,Bought on,From\nSilver Kite,12,2024-05-04,Anna\nBrackenhall Van,,,\n'],
    'list.csv',
  );
  const lot = { name: 'List', currency: 'USD' } as const;
  await resultOf(await api.imports.run({ file, as: 'lot', lot }));
  const [{ id: lotId } = { id: 0 }] = await api.lots.list();
  const costs = async () =>
    (await api.cars.list({})).map(({ cost, boughtOn, seller }) => [cost, boughtOn, seller]);
  const unpriced = [
    [1200, '2024-05-04', 'Anna'],
    [null, null, ''],
  ];
  expect(await costs()).toEqual(unpriced);
  await api.cars.create({ lotId, cars: [{ inventoryNumber: 'X-1' }] });
  await api.lots.shareCost({ id: lotId });
  expect(await costs()).toEqual([...unpriced, [null, null, '']]);
  await api.lots.update({ id: lotId, costs: [{ kind: 'price', minor: 3200, note: '' }] });
  expect((await costs()).map(([cost]) => cost)).toEqual([1200, 1000, 1000]);
});

it('a car has a day of purchase and a seller of its own, which can be typed', async () => {
  const { api } = await newCollectionService();
  await api.cars.create({ lotId: null, cars: [{ inventoryNumber: 'X-1' }] });
  const [car] = await api.cars.list({});
  await api.cars.update({ changes: [{ id: car!.id, patch: { boughtOn: '2024-05-04', seller: 'Anna' } }] });
  expect(await api.cars.list({})).toMatchObject([{ boughtOn: '2024-05-04', seller: 'Anna' }]);
  await api.cars.update({ changes: [{ id: car!.id, patch: { boughtOn: null, seller: '' } }] });
  expect(await api.cars.list({})).toMatchObject([{ boughtOn: null, seller: '' }]);
});

import { describe, expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';

const price = (minor: number) => [{ kind: 'price' as const, minor, note: '' }];

/** Two lots of the same casting with a day and a price, and a third whose value rests on them. */
const threeLots = async (api: Api) => {
  const { variations } = await addReference(api);
  const lot = async (name: string, minor: number) => {
    const { id: lotId } = await api.lots.create({
      name,
      boughtOn: '2026-02-01',
      currency: 'USD',
      costs: price(minor),
    });
    const { ids } = await api.cars.create({
      lotId,
      cars: [
        { variationId: variations.emberTwin, grade: 6 },
        { variationId: variations.mossTwin, grade: 6 },
      ],
    });
    return { lotId, ids };
  };
  const fair = await lot('Fair', 8_000);
  const gift = await lot('From a friend', 200);
  const [car] = (
    await api.cars.create({ lotId: null, cars: [{ variationId: variations.emberTwin, grade: 6 }] })
  ).ids;
  const value = async () => (await api.cars.get({ id: car! })).worths.asFound?.mid ?? null;
  return { fair, gift, value };
};

const evidenceOf = async (api: Api, id: number) => (await api.lots.get({ id })).evidence;

describe('what was paid, as evidence', () => {
  it('counts as one sale of a lot, is left out with a reason and taken in again, and values follow', async () => {
    const { api } = await newCollectionService();
    const { fair, gift, value } = await threeLots(api);
    expect(await evidenceOf(api, gift.lotId)).toEqual({
      purchases: [{ car: null, boughtOn: '2026-02-01', total: 200, cars: 2, aside: null, why: '' }],
      lacks: null,
      currency: 'USD',
    });
    const both = await value();
    expect(await api.worth.evidence()).toMatchObject({
      purchases: 2,
      purchasesAside: 0,
      beliefs: 0,
      valued: 5,
    });
    await api.lots.leaveOut({ of: 'lot', id: gift.lotId, leftOut: true, why: 'a friend’s price' });
    expect((await evidenceOf(api, gift.lotId)).purchases).toMatchObject([
      { aside: { kind: 'left-out' }, why: 'a friend’s price' },
    ]);
    expect((await api.cars.get({ id: gift.ids[0]! })).purchase).toMatchObject({
      lot: 'From a friend',
      car: null,
      aside: { kind: 'left-out' },
    });
    expect((await value())!).toBeGreaterThan(both!);
    expect(await api.worth.evidence()).toMatchObject({ purchases: 1, purchasesAside: 1 });
    await api.lots.leaveOut({ of: 'lot', id: gift.lotId, leftOut: false });
    expect(await value()).toBe(both);
    expect((await evidenceOf(api, fair.lotId)).purchases).toMatchObject([{ aside: null }]);
  });

  it('is fitted again when a grade changes in a lot with a price', async () => {
    const { api } = await newCollectionService();
    const { fair, value } = await threeLots(api);
    const before = (await value())!;
    // Two better cars for the same money: one in C6 is worth less.
    await api.cars.update({ changes: fair.ids.map(id => ({ id, patch: { grade: 9 } })) });
    expect((await value())!).toBeLessThan(before);
    await api.collection.undo();
    expect(await value()).toBe(before);
  });

  it('says what of a purchase is not known', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    const { id } = await api.lots.create({ name: 'Loft', currency: 'USD' });
    expect(await evidenceOf(api, id)).toMatchObject({ lacks: 'cars' });
    await api.cars.create({ lotId: id, cars: [{ variationId: variations.emberTwin }, {}] });
    expect(await evidenceOf(api, id)).toMatchObject({ lacks: 'cost' });
    await api.lots.update({ id, costs: price(5_000) });
    expect(await evidenceOf(api, id)).toMatchObject({ lacks: 'day' });
    await api.lots.update({ id, boughtOn: '2026-02-01' });
    expect(await evidenceOf(api, id)).toMatchObject({
      lacks: null,
      purchases: [{ aside: { kind: 'unidentified-cars', cars: 1 } }],
    });
  });

  it('is left out for one car that was bought alone, and its list stays a list', async () => {
    const { api } = await newCollectionService();
    await addReference(api);
    const list =
      'Car,Cond.,Paid,Bought on,Seller\nDovetail,7,30,2026-01-10,Fair\nDovetail,7,1,2026-01-12,Ann\n';
    const { lot } = await resultOf(
      await api.imports.run({
        file: new File([list], 'list.csv'),
        as: 'lot',
        lot: { name: 'My list', currency: 'USD' },
      }),
    );
    const before = await evidenceOf(api, lot!.id);
    expect(before.purchases.map(({ car, total, aside }) => [car?.inventoryNumber, total, aside])).toEqual([
      ['0001', 3_000, null],
      ['0002', 100, null],
    ]);
    const [, cheap] = before.purchases;
    await api.lots.leaveOut({ of: 'car', id: cheap!.car!.id, leftOut: true, why: 'a gift' });
    expect((await evidenceOf(api, lot!.id)).purchases).toMatchObject([
      { aside: null, why: '' },
      { aside: { kind: 'left-out' }, why: 'a gift' },
    ]);
    expect((await api.cars.get({ id: cheap!.car!.id })).purchase).toMatchObject({ why: 'a gift' });
    await api.collection.undo();
    expect(await evidenceOf(api, lot!.id)).toEqual(before);
  });

  it('labels the values that rest mainly on it, on Home and in lists, but not an own figure', async () => {
    const { api } = await newCollectionService();
    const { id: castingId } = await api.reference.saveCasting({
      maker: 'Quillon Toys',
      series: 'Weir',
      name: 'Osmerry',
    });
    const asWritten = { casting: 'Osmerry' };
    for (const [name, minor] of [
      ['Fair', 4_000],
      ['Loft', 5_000],
    ] as const) {
      const { id: lotId } = await api.lots.create({
        name,
        boughtOn: '2026-02-01',
        currency: 'USD',
        costs: price(minor),
      });
      await api.cars.create({ lotId, cars: [{ castingId, asWritten, grade: 6 }] });
    }
    const rows = await api.cars.list({});
    expect(rows.map(({ worths }) => worths.restsOn)).toEqual(['paid', 'paid']);
    expect((await api.collection.home()).totals.onOwn).toEqual({ paid: 2, believed: 0 });
    expect(await api.worth.evidence()).toMatchObject({
      sales: 0,
      valued: 2,
      onOwn: { paid: 2, believed: 0 },
    });
  });
});

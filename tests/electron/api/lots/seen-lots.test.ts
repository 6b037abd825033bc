import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { everything } from '../../../../renderer/screens/decide/filter/filter.ts';
import { carFilterIn } from '../../../../valuation/reading/list-address.ts';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';

/** A collection of three cars in a bought lot. */
const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const reference = await addReference(api);
  const { id: lotId } = await api.lots.create({
    name: 'Loft',
    currency: 'USD',
    boughtOn: '2026-01-05',
    costs: [{ kind: 'price', minor: 9000 }],
  });
  const { variations } = reference;
  await api.cars.create({
    lotId,
    cars: [
      { inventoryNumber: 'A1', variationId: variations.emberTwin, grade: 6 },
      { inventoryNumber: 'A2', variationId: variations.mossTwin, grade: 4 },
      { inventoryNumber: 'A3', variationId: variations.emberBar, grade: 5, status: 'donor' },
    ],
  });
  return { ...service, reference, lotId };
};

type Shelf = Awaited<ReturnType<typeof shelf>>;

/** The same with a lot that was only seen: a donor, a car of another casting and one of which the variation is open. */
const withSeenLot = async ({ api, reference: { variations, dovetail } }: Shelf) => {
  const { id: seenId } = await api.lots.create({ name: 'Saleroom', currency: 'USD', seen: true });
  const { ids } = await api.cars.create({
    lotId: seenId,
    cars: [
      { inventoryNumber: 'S1', variationId: variations.plumGt, grade: 8 },
      { inventoryNumber: 'S2', variationId: variations.skyOxbow, grade: 5, status: 'donor' },
      { inventoryNumber: 'S3', castingId: dovetail, grade: 3 },
    ],
  });
  return { seenId, ids: ids as [number, number, number] };
};

type Stream = Awaited<ReturnType<Api['papers']['make']>> | Awaited<ReturnType<Api['exports']['make']>>;

const textOf = async (api: Api, stream: Stream) => {
  const { token } = await resultOf<{ token: string }>(stream);
  return (await api.reports.file({ token })).text();
};

/** All that is summed, listed for others or advised of a collection. */
const saidOf = async ({ api }: Shelf, setId: number) => {
  const { summary, ...home } = await api.collection.home();
  const { cars: _, seen: __, ...totals } = (await api.cars.facts(carFilterIn(''))).totals;
  return {
    home,
    cars: summary.counts.cars,
    values: await resultOf(await api.worth.list({})),
    evidence: await api.worth.evidence(),
    snapshot: await api.worth.takeSnapshot({}),
    lookUp: await api.decisions.lookUp(),
    hour: await api.decisions.valueOfAnHour(),
    answers: await api.young.answers(),
    decide: await api.decisions.facts(everything),
    decisions: (await api.decisions.list({})).map(({ car }) => car.inventoryNumber),
    lacking: (await api.cars.facts(carFilterIn('show=no-photograph'))).totals,
    totals,
    set: await api.castingSets.page({ id: setId }),
    donors: await api.bench.donors(),
    report: await textOf(api, await api.reports.make({ format: 'csv' })),
  };
};

const newSet = async ({ api, reference: { dovetail, oxbow } }: Shelf) =>
  (await api.castingSets.create({ name: 'Both', castingIds: [dovetail, oxbow] })).id;

describe('a lot that was only seen', () => {
  it('changes nothing that is summed, listed for others or advised, until it is bought', async () => {
    const plain = await shelf();
    const seen = await shelf();
    const { seenId, ids } = await withSeenLot(seen);
    const before = await saidOf(plain, await newSet(plain));
    const setId = await newSet(seen);
    expect(await saidOf(seen, setId)).toEqual(before);
    const { api } = seen;
    expect((await api.collection.summary()).counts).toMatchObject({ cars: 3, seenCars: 3 });
    const facts = await api.cars.facts(carFilterIn(''));
    expect(facts.totals).toMatchObject({ cars: 6, here: 3, seen: 3 });
    expect(facts.choices.status).toContainEqual({ value: 'seen', cars: 3 });
    expect((await api.lots.get({ id: seenId })).rows.every(row => row.isSeen)).toBe(true);
    const whole = await textOf(api, await api.exports.make({ list: 'cars', format: 'csv' }));
    const chosen = await textOf(api, await api.exports.make({ list: 'cars', format: 'csv', ids }));
    for (const list of [whole, chosen]) expect(list.match(/seen, not bought/g)).toHaveLength(3);
    await api.lots.buy({ id: seenId, boughtOn: '2026-03-01', price: 5000 });
    expect((await api.collection.summary()).counts).toMatchObject({ cars: 6, seenCars: 0 });
    const bought = await saidOf(seen, setId);
    expect([bought.values.cars.length, bought.home.totals.cars]).toEqual([6, 6]);
    expect(bought.report).toContain('S3');
    await api.collection.undo({});
    await api.collection.undo({});
    expect((await api.collection.home()).totals.cars).toBe(3);
  });

  it('stands in no paper and no gallery for others', async () => {
    const plain = await shelf();
    const seen = await shelf();
    await withSeenLot(seen);
    const wanted = async ({ api }: Shelf) => textOf(api, await api.papers.make({ kind: 'want-list' }));
    expect(await wanted(seen)).toBe(await wanted(plain));
    const { api, dir } = seen;
    expect((await resultOf(await api.papers.labels({}))).labels).toBe(3);
    expect((await resultOf(await api.gallery.make({ out: join(dir, 'gallery') }))).cars).toBe(3);
  });

  it('cannot be reported, sold or worked on, and its bid sheet can be printed', async () => {
    const service = await shelf();
    const { api } = service;
    const { seenId, ids } = await withSeenLot(service);
    const said = async (call: Promise<AsyncIterable<never>>) =>
      (await refusalOf(call.then(stream => resultOf(stream)))).message;
    expect(await said(api.reports.make({ format: 'csv', lotId: seenId }) as never)).toContain('bid sheet');
    expect(await said(api.reports.make({ format: 'csv', carIds: ids }) as never)).toContain('no car');
    expect(await said(api.papers.labels({ carIds: ids }) as never)).toContain('no car');
    expect(await said(api.papers.make({ kind: 'sale-sheet', carId: ids[0] }) as never)).toContain(
      'only seen',
    );
    expect(await said(api.papers.make({ kind: 'claim', carId: ids[0] }) as never)).toContain('only seen');
    const sale = { carId: ids[0], soldOn: '2026-02-01', proceeds: 1000, fees: 0, currency: 'USD' };
    const sold = api.cars.dispose({ ...sale, buyer: '', venue: '', notes: '' });
    expect((await refusalOf(sold)).message).toContain('only seen');
    const bench = api.bench.add({ cars: [{ carId: ids[0], kind: 'restore' }] });
    expect((await refusalOf(bench)).message).toContain('only seen');
    expect((await resultOf(await api.papers.make({ kind: 'bid', lotId: seenId }))).pages).toBe(1);
  });

  it('is one by its bid, without a day and without costs', async () => {
    const { api, lotId } = await shelf();
    const terms = { margin: 0.2, probability: 0.8, premiumRate: 0, taxRate: 0, carriage: 0 };
    const isSeen = async (id: number) => (await api.lots.get({ id })).isSeen;
    await api.lots.saveBid({ id: lotId, ...terms });
    expect(await isSeen(lotId)).toBe(false);
    const { id } = await api.lots.create({ name: 'Gift', currency: 'USD' });
    expect(await isSeen(id)).toBe(false);
    await api.lots.saveBid({ id, ...terms });
    expect(await isSeen(id)).toBe(true);
    await api.lots.update({ id, seen: false });
    expect(await isSeen(id)).toBe(false);
    await api.lots.update({ id, seen: true });
    await api.lots.update({ id, boughtOn: '2026-02-02' });
    expect(await isSeen(id)).toBe(false);
    const both = api.lots.create({ name: 'Both', currency: 'USD', seen: true, boughtOn: '2026-02-02' });
    expect((await refusalOf(both)).message).toContain('was bought');
  });
});

import { describe, expect, it } from 'vitest';
import type { ExportedList } from '../../../../electron/api/exports/exports.ts';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';

const terms = { margin: 0.25, probability: 0.9, premiumRate: 0.15, taxRate: 0.07, carriage: 1250 };

/** A bought car, and a lot that was only seen with two cars, of which one would be a donor. */
const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations } = await addReference(api);
  const { id: boughtId } = await api.lots.create({
    name: 'Loft',
    currency: 'USD',
    boughtOn: '2026-01-05',
    costs: [{ kind: 'price', minor: 9000 }],
  });
  await api.lots.leaveOut({ of: 'lot', id: boughtId, leftOut: true, why: 'a gift, "nearly"' });
  await api.lots.saveBid({ id: boughtId, ...terms, carriage: 0 });
  await api.cars.create({
    lotId: boughtId,
    cars: [{ inventoryNumber: 'A1', variationId: variations.emberTwin, grade: 6 }],
  });
  const { id: seenId } = await api.lots.create({ name: 'Saleroom', currency: 'USD', seen: true });
  await api.lots.saveBid({ id: seenId, ...terms });
  const { ids } = await api.cars.create({
    lotId: seenId,
    cars: [
      { inventoryNumber: 'S1', variationId: variations.plumGt, grade: 8 },
      { inventoryNumber: 'S2', variationId: variations.skyOxbow, grade: 5, status: 'donor' },
    ],
  });
  return { ...service, seenId, carId: ids[0]! };
};

const out = async (api: Api, list: ExportedList, format: 'csv' | 'xlsx' | 'jsonl'): Promise<File> => {
  const made = await resultOf(await api.exports.make({ list, format }));
  const file = await api.reports.file({ token: made.token });
  return new File([await file.arrayBuffer()], `${list}.${format}`);
};

const bare = async () => {
  const { api } = await newCollectionService();
  await addReference(api);
  return api;
};

/** What a collection says of its lots and cars that were only seen. */
const saidOf = async (api: Api) => {
  const lots = await api.lots.list();
  const pages = await Promise.all(lots.map(({ id }) => api.lots.get({ id })));
  return {
    lots: pages
      .map(({ name, isSeen, bid, evidence, rows }) => ({
        name,
        isSeen,
        bid,
        leftOut: evidence.purchases.map(({ aside, why }) => [aside, why]),
        cars: rows.map(row => `${row.inventoryNumber} ${row.status} ${row.isSeen}`).sort(),
      }))
      .sort((a, b) => (a.name < b.name ? -1 : 1)),
    counts: (await api.collection.summary()).counts,
  };
};

describe('a lot that was only seen, in lists that go out and come back', () => {
  it.each(['csv', 'xlsx', 'jsonl'] as const)(
    'comes back as seen, with its bid and its cars (%s)',
    async format => {
      const { api } = await shelf();
      const lots = await out(api, 'lots', format);
      const cars = await out(api, 'cars', format);
      const other = await bare();
      const lot = { name: 'From a list', currency: 'USD' };
      expect(await resultOf(await other.imports.ledger({ file: lots, as: 'lots' }))).toMatchObject({
        accepted: 2,
        rejected: [],
      });
      const taken = await resultOf(await other.imports.run({ file: cars, as: 'lot', lot }));
      expect(taken).toMatchObject({ accepted: 3, rejected: [], notUnderstood: [] });
      expect(await saidOf(other)).toEqual(await saidOf(api));
      const again = await resultOf(await other.imports.ledger({ file: lots, as: 'lots' }));
      expect(again).toMatchObject({ accepted: 0, duplicates: 2, rejected: [] });
      const carsAgain = await resultOf(await other.imports.run({ file: cars, as: 'lot', lot }));
      expect(carsAgain).toMatchObject({ accepted: 0, duplicates: 3 });
    },
  );

  it('comes with the cars alone too, in a lot of its own with the usual terms', async () => {
    const { api } = await shelf();
    const file = await out(api, 'cars', 'csv');
    const other = await bare();
    const lot = { name: 'From a list', currency: 'USD' };
    const tried = await resultOf(await other.imports.run({ file, as: 'lot', lot, dryRun: true }));
    const taken = await resultOf(await other.imports.run({ file, as: 'lot', lot }));
    expect([tried.accepted, taken.accepted]).toEqual([3, 3]);
    expect(taken.notes.join(' ')).toContain('One lot holds cars that were only seen');
    expect(taken.lots?.map(({ name, cars }) => `${name} ${cars}`).sort()).toEqual([
      'From a list 1',
      'Saleroom 2',
    ]);
    expect((await other.collection.summary()).counts).toMatchObject({ cars: 1, seenCars: 2 });
    await other.collection.undo({});
    expect((await other.collection.summary()).counts).toMatchObject({ cars: 0, seenCars: 0, lots: 0 });
  });

  it('is taken as bought where its row or its lot says that it was bought', async () => {
    const { api } = await shelf();
    const whole = await (await out(api, 'cars', 'csv')).text();
    const [heading = '', bought = '', ...seen] = whole.trim().split('\r\n');
    const text = [
      heading,
      bought.replace('A1,', 'B1,').replace(',kept,', ',"seen, not bought",'),
      seen[0]?.replace('S1,', 'B2,').replace(',Saleroom,', ',,'),
    ].join('\n');
    const other = 'number,casting,status,bought on,price paid\nB3,Dovetail,seen only,2026-02-01,12.00\n';
    const lot = { name: 'Mixed', currency: 'USD' };
    for (const [i, file] of [text, other].entries()) {
      const done = await resultOf(
        await api.imports.run({ file: new File([file], `${i}.csv`), as: 'lot', lot }),
      );
      expect(done).toMatchObject({ rejected: [], duplicates: 0 });
    }
    const rows = await api.cars.list({});
    const said = async (number: string) => {
      const { id, isSeen } = rows.find(row => row.inventoryNumber === number)!;
      return [isSeen, (await api.cars.get({ id })).unread.map(({ text: left }) => left)];
    };
    expect(await said('B1')).toEqual([false, ['seen, not bought']]);
    expect(await said('B2')).toEqual([true, []]);
    expect(await said('B3')).toEqual([false, ['seen only']]);
    expect((await api.lots.list()).map(({ name }) => name)).toContain('Seen, not bought');
  });

  it('is refused with its line where it contradicts itself, or where its car is sold or worked on', async () => {
    const { api } = await shelf();
    const taken = async (as: 'lots' | 'disposals', ...lines: string[]) =>
      (await resultOf(await api.imports.ledger({ file: new File([lines.join('\n')], 'list.csv'), as })))
        .rejected;
    expect(
      await taken(
        'lots',
        'lot,currency,bought_on,only_seen,bid',
        'Both,USD,2026-01-01,yes,',
        'Odd,USD,,yes,margin plenty',
        'Far,USD,,yes,margin 120 %',
        'Fair,USD,,yes,premium 15 %',
      ),
    ).toMatchObject([
      { line: 2, column: 'only_seen' },
      { line: 3, column: 'bid' },
      { line: 4, column: 'bid' },
    ]);
    const [sale] = await taken(
      'disposals',
      'inventory_number,sold_on,sold_for,currency',
      'S1,2026-02-01,10.00,USD',
    );
    expect(sale).toMatchObject({ line: 2, reason: expect.stringContaining('only seen') });
  });

  it('cannot be sold, and its search hits say what it is', async () => {
    const { api, carId, seenId } = await shelf();
    const sale = { carId, soldOn: '2026-02-01', proceeds: 1000, fees: 0, currency: 'USD' };
    const said = async (call: Promise<unknown>) => (await refusalOf(call)).message;
    expect(await said(api.cars.dispose({ ...sale, buyer: '', venue: '', notes: '' }))).toContain(
      'S1 is of a lot that was only seen. Save the lot as bought first.',
    );
    expect(await said(api.cars.update({ changes: [{ id: carId, patch: { status: 'sold' } }] }))).toContain(
      'only seen',
    );
    const hits = await api.collection.search({ text: 'S1', limit: 10 });
    expect(hits.find(hit => hit.kind === 'car')?.detail).toMatch(/^seen, not bought · /);
    const [lot] = await api.collection
      .search({ text: 'Saleroom', limit: 10 })
      .then(all => all.filter(({ kind }) => kind === 'lot'));
    expect(lot).toMatchObject({ id: seenId, detail: 'seen, not bought' });
    const [own] = await api.collection.search({ text: 'A1', limit: 10 });
    expect(own?.detail).not.toContain('seen');
    await api.lots.buy({ id: seenId, boughtOn: '2026-03-01', price: 5000 });
    const [bought] = await api.collection.search({ text: 'S1', limit: 10 });
    expect(bought?.detail).not.toContain('seen');
    await api.cars.dispose({ ...sale, soldOn: '2026-03-02', buyer: '', venue: '', notes: '' });
    expect((await api.collection.search({ text: 'S1', limit: 10 }))[0]?.detail).toMatch(/^sold · /);
  });
});

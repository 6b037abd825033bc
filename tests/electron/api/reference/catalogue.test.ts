import { describe, expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';

const price = (minor: number) => [{ kind: 'price' as const, minor, note: '' }];

const lotOf = async (api: Api, minor: number | null, name = 'Loft find') =>
  (await api.lots.create({ name, currency: 'USD', ...(minor !== null && { costs: price(minor) }) })).id;

const labels = async (api: Api) => (await api.collection.history()).map(entry => entry.label);

describe('entering cars by typing', () => {
  it('identifies what fits one variation, narrows what fits some, and keeps the text of the rest', async () => {
    const { api } = await newCollectionService();
    const { dovetail, variations } = await addReference(api);
    const lotId = await lotOf(api, null);
    const { ids } = await api.cars.create({
      lotId,
      cars: [
        { asWritten: { casting: ' dovetail ', colour: 'EMBER', rear_end: 'bar  lamp' }, grade: 4.5 },
        { asWritten: { casting: 'Dovetail', colour: 'moss' } },
        { asWritten: { casting: 'Dovetail Rally' } },
        { asWritten: { casting: 'Whoosh', colour: 'Ember' } },
      ],
    });
    const rows = await api.cars.list({ lotId });
    expect(rows.map(row => row.id)).toEqual(ids);
    const [bar, moss, gt, whoosh] = rows;
    expect(bar).toMatchObject({
      identified: 'variation',
      castingId: dovetail,
      variationId: variations.emberBar,
      variation: 'Ember, bar lamp',
      releaseName: 'Dovetail',
      releaseYear: 1968,
      grade: 4.5,
      asWritten: { casting: 'dovetail', colour: 'EMBER', rear_end: 'bar  lamp' },
    });
    expect(moss).toMatchObject({
      identified: 'casting',
      castingId: dovetail,
      candidateCount: 2,
      variation: null,
    });
    expect(moss?.features.colour).toBe('moss');
    expect(gt).toMatchObject({
      identified: 'variation',
      variationId: variations.plumGt,
      releaseName: 'Dovetail Rally',
    });
    expect(whoosh).toMatchObject({ identified: 'no', castingId: null, casting: null });
    expect(whoosh?.asWritten).toEqual({ casting: 'Whoosh', colour: 'Ember' });
    expect((await api.cars.get({ id: moss?.id ?? 0 })).candidates.map(row => row.id)).toEqual([
      variations.mossTwin,
      variations.mossBar,
    ]);
  });

  it('follows a changed cell with what is known of the rest', async () => {
    const { api } = await newCollectionService();
    const { dovetail, variations } = await addReference(api);
    const { ids } = await api.cars.create({ lotId: null, cars: [{ variationId: variations.emberBar }] });
    const id = ids[0] ?? 0;
    const type = async (asWritten: Record<string, string>) =>
      (await api.cars.update({ changes: [{ id, patch: { asWritten } }] })).rows[0];
    expect(await type({ colour: 'Moss' })).toMatchObject({ variationId: variations.mossBar });
    expect(await type({ colour: 'Plum' })).toMatchObject({ variationId: variations.plumGt });
    const unknown = await type({ colour: 'Ruby' });
    expect(unknown).toMatchObject({ identified: 'casting', castingId: dovetail, variationId: null });
    expect(unknown?.features).toMatchObject({ colour: 'Ruby', rearEnd: 'twin lamps', basePaint: 'full' });
    const other = await type({ casting: 'Oxbow', colour: 'Sky', rear_end: '' });
    expect(other).toMatchObject({ casting: 'Oxbow', variationId: variations.skyOxbow });
    expect(await type({ casting: '' })).toMatchObject({ identified: 'no', castingId: null });
  });

  it('lets go of a variation when another casting is chosen, and refuses what does not belong together', async () => {
    const { api } = await newCollectionService();
    const { dovetail, oxbow, variations } = await addReference(api);
    const { ids } = await api.cars.create({ lotId: null, cars: [{ variationId: variations.emberBar }] });
    const change = (patch: object) => api.cars.update({ changes: [{ id: ids[0] ?? 0, patch }] });
    expect((await change({ castingId: oxbow })).rows[0]).toMatchObject({
      casting: 'Oxbow',
      variationId: null,
      releaseName: null,
    });
    const crossed = await refusalOf(change({ castingId: oxbow, variationId: variations.emberBar }));
    expect(crossed.message).toBe('That variation belongs to another casting.');
    expect(await refusalOf(change({ castingId: 999 }))).toMatchObject({ code: 'NOT_FOUND' });
    expect((await change({ candidates: [variations.emberBar, variations.emberTwin] })).rows[0]).toMatchObject(
      {
        castingId: dovetail,
        candidateCount: 2,
      },
    );
    expect((await change({ variationId: variations.emberBar })).rows[0]).toMatchObject({ candidateCount: 0 });
  });

  it('counts inventory numbers on in the manner of the lot', async () => {
    const { api } = await newCollectionService();
    const lotId = await lotOf(api, null);
    const numbers = async () => (await api.cars.list({})).map(row => row.inventoryNumber);
    await api.cars.create({ lotId, cars: [{ inventoryNumber: 'A-099' }, {}] });
    await api.cars.create({ lotId: null, cars: [{ inventoryNumber: 'Z7' }] });
    await api.cars.create({ lotId, cars: [{}, { inventoryNumber: 'A-102' }, {}] });
    expect(await numbers()).toEqual(['A-099', 'A-100', 'Z7', 'A-103', 'A-102', 'A-104']);
    const again = await refusalOf(api.cars.create({ lotId, cars: [{ inventoryNumber: 'a-099' }] }));
    expect(again.message).toBe('Another car has this inventory number already. Give each car its own.');
    expect(await numbers()).toHaveLength(6);
  });
});

describe('one action each', () => {
  it('enters a paste as one action, and undo takes all of it back', async () => {
    const { api } = await newCollectionService();
    const lotId = await lotOf(api, 10_000);
    await api.cars.create({ lotId, cars: [{}, {}, {}] });
    const cars = await api.cars.list({});
    const { rows } = await api.cars.update({
      changes: cars.map((car, i) => ({ id: car.id, patch: { grade: 4 + i, location: 'Shelf 2' } })),
    });
    expect(rows.map(row => [row.grade, row.location])).toEqual([
      [4, 'Shelf 2'],
      [5, 'Shelf 2'],
      [6, 'Shelf 2'],
    ]);
    expect((await labels(api)).slice(0, 2)).toEqual(['Changed 3 cars', 'Added 3 cars to Loft find']);
    await api.collection.undo();
    expect((await api.cars.list({})).map(row => [row.grade, row.location])).toEqual([
      [null, ''],
      [null, ''],
      [null, ''],
    ]);
    await api.collection.undo();
    expect(await api.cars.list({})).toEqual([]);
    await api.collection.redo();
    expect((await api.cars.list({})).map(row => row.cost)).toEqual([3334, 3333, 3333]);
  });

  it('names an edit by what it changed', async () => {
    const { api } = await newCollectionService();
    const { ids } = await api.cars.create({ lotId: null, cars: [{ inventoryNumber: 'Q-1' }, {}] });
    await api.cars.update({ changes: [{ id: ids[0] ?? 0, patch: { finishState: 'restored' } }] });
    await api.cars.update({ changes: ids.map(id => ({ id, patch: { asWritten: { rear_end: 'x' } } })) });
    await api.cars.update({ changes: [{ id: ids[0] ?? 0, patch: { grade: 5 } }], label: 'Graded at last' });
    expect((await labels(api)).slice(0, 3)).toEqual([
      'Graded at last',
      'Changed the rear end of 2 cars',
      'Changed the finish state of Q-1',
    ]);
  });

  it('changes nothing when one of many changes is refused', async () => {
    const { api } = await newCollectionService();
    const { ids } = await api.cars.create({ lotId: null, cars: [{}, {}] });
    const changes = [
      { id: ids[0] ?? 0, patch: { grade: 5 } },
      { id: 999, patch: { grade: 5 } },
    ];
    expect(await refusalOf(api.cars.update({ changes }))).toMatchObject({ code: 'NOT_FOUND' });
    expect((await api.cars.list({})).map(row => row.grade)).toEqual([null, null]);
  });

  it('removes cars with all that hangs on them, and undo brings that back', async () => {
    const { api } = await newCollectionService();
    const { ids } = await api.cars.create({ lotId: null, cars: [{}] });
    const carId = ids[0] ?? 0;
    const parts = [
      { part: 'wheels' as const, grade: 6, originality: 'reproduction' as const, note: 'rear pair' },
    ];
    await api.cars.saveCheck({ carId, checkedOn: '2026-01-02', grade: 5.5, parts });
    await api.cars.addExpense({ carId, spentOn: '2026-01-03', what: 'Wheels', minor: 450, currency: 'USD' });
    await api.cars.remove({ ids });
    expect(await refusalOf(api.cars.get({ id: carId }))).toMatchObject({ code: 'NOT_FOUND' });
    await api.collection.undo();
    const page = await api.cars.get({ id: carId });
    expect(page).toMatchObject({ grade: 5.5 });
    expect(page.checks[0]?.parts).toEqual(parts);
    expect(page.expenses).toHaveLength(1);
    expect(page.history.map(entry => entry.label)).toContain('Checked the condition of 0001');
  });

  it('takes the grade of the newest check only', async () => {
    const { api } = await newCollectionService();
    const { ids } = await api.cars.create({ lotId: null, cars: [{}] });
    const carId = ids[0] ?? 0;
    await api.cars.saveCheck({ carId, checkedOn: '2026-02-01', grade: 6, parts: [] });
    await api.cars.saveCheck({ carId, checkedOn: '2025-02-01', grade: 8, parts: [] });
    const page = await api.cars.get({ id: carId });
    expect(page.grade).toBe(6);
    expect(page.checks.map(check => check.checkedOn)).toEqual(['2026-02-01', '2025-02-01']);
    const older = page.checks[1];
    await api.cars.saveCheck({
      carId,
      checkId: older?.id ?? 0,
      checkedOn: '2026-03-01',
      grade: 7,
      parts: [],
    });
    expect((await api.cars.get({ id: carId })).grade).toBe(7);
  });
});

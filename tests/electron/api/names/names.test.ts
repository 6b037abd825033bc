import { describe, expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';

const lines = [
  '3/14/25, Brackenhall Van purple C8 original, $61.00',
  '2/2/25, brackenhall van purple C3, $14.50',
  '11/20/25, brackenhall van C5, $28',
  '8/28/25, Silver Kite C6, $25',
].join('\n');

const cars = (api: Api, named: Record<string, string>[]) =>
  api.cars.create({ lotId: null, cars: named.map(asWritten => ({ asWritten, grade: 6 })) });

/** Seven cars of three castings in six spellings, and four sales jotted down. */
const shoebox = async (api: Api) => {
  await cars(api, [
    { casting: 'Brackenhall Van', release_year: '1968', colour: 'purple' },
    { casting: 'Brackenhal van', release_year: '1968' },
    { casting: 'Corriemuir Coupe', release_year: '1969' },
    { casting: 'Coupé, Corriemuir', release_year: '1971' },
    { casting: 'Silver Kite' },
    { casting: 'Sliver Kites' },
    { casting: 'Tin garage' },
  ]);
  await api.sales.addLines({ text: lines });
};

const waiting = async (api: Api) =>
  Object.fromEntries(
    (await api.names.waiting()).names.map(({ name, cars: of, sales }) => [name, [of, sales]]),
  );

describe('names that wait', () => {
  it('come from cars and sale records together, like spellings in one group, those of most cars first', async () => {
    const { api } = await newCollectionService();
    await shoebox(api);
    const list = await api.names.waiting();
    expect(list).toMatchObject({ cars: 7, sales: 4 });
    expect(list.names.map(({ name, cars: of, sales }) => [name, of, sales])).toEqual([
      ['Brackenhall Van', 2, 3],
      ['Silver Kite', 2, 1],
      ['Corriemuir Coupe', 2, 0],
      ['Tin garage', 1, 0],
    ]);
    expect(list.names[0]).toMatchObject({ years: [1968], examples: ['0001', '0002'], near: null, valued: 2 });
    expect(list.names[1]?.spellings.map(({ text }) => text)).toEqual(['Silver Kite', 'Sliver Kites']);
    expect(list.names[2]?.valued).toBe(0);
  });

  it('settled as a casting take their cars and sales with them, and one undo brings all back', async () => {
    const { api, session } = await newCollectionService();
    await shoebox(api);
    const unread = () =>
      session.collection!.read.sqlite.prepare('SELECT unread FROM sale_record ORDER BY id').pluck().all();
    const jotted = 'date,title,price\n11/19/25,brackenhall van - restored,$28\n';
    await resultOf(await api.imports.run({ file: new File([jotted], 'sold.csv'), as: 'sales' }));
    expect(unread().at(-1)).toContain('"brackenhall van"');
    const before = await api.names.waiting();
    const done = await api.names.settle({ texts: ['brackenhal  VAN'], settlement: { as: 'casting' } });
    expect(done).toMatchObject({ name: 'Brackenhall Van', casting: 'Brackenhall Van', cars: 2, sales: 4 });
    expect(await waiting(api)).not.toHaveProperty('Brackenhall Van');
    const page = await api.reference.casting({ id: done.castingId! });
    expect(page).toMatchObject({
      series: 'Unsorted',
      maker: 'Unknown maker',
      firstYear: 1968,
      cars: 2,
      saleRecords: 4,
    });
    expect(page.releaseRows).toMatchObject([{ name: 'Brackenhall Van', year: 1968 }]);
    expect(unread().at(-1)).toBe('[]');
    const [valued] = await api.cars.list({ castingId: done.castingId! });
    expect(valued?.worths.asFound?.mid).toBeGreaterThan(0);
    await api.collection.undo();
    expect(await api.names.waiting()).toEqual(before);
    expect(await api.reference.castings()).toEqual([]);
  });

  it('that were settled or parted are listed, and each can be taken back', async () => {
    const { api } = await newCollectionService();
    await shoebox(api);
    await api.names.part({ text: 'Sliver Kites' });
    await api.names.settle({ texts: ['Brackenhall Van'], settlement: { as: 'casting' } });
    await api.names.settle({ texts: ['Tin garage'], settlement: { as: 'not a car' } });
    const list = await api.names.settled();
    expect(list.settled.map(({ text, means, casting, release }) => [text, means, casting, release])).toEqual([
      ['Tin garage', 'not a car', null, null],
      ['Brackenhal van', 'casting', 'Brackenhall Van', null],
      ['Brackenhall Van', 'casting', 'Brackenhall Van', null],
    ]);
    expect(list.parted.map(({ one, other }) => [one, other])).toEqual([['silver kite', 'sliver kites']]);
    expect(await waiting(api)).not.toHaveProperty('Tin garage');
    expect(await waiting(api)).toMatchObject({ 'Silver Kite': [1, 1], 'Sliver Kites': [1, 0] });

    await api.names.takeBack({
      settled: list.settled.map(({ id }) => id),
      parted: list.parted.map(({ id }) => id),
    });
    expect(await api.names.settled()).toEqual({ settled: [], parted: [], variations: [] });
    // What waits again, waits; what has followed stays.
    expect(await waiting(api)).toMatchObject({ 'Tin garage': [1, 0], 'Silver Kite': [2, 1] });
    expect(await waiting(api)).not.toHaveProperty('Brackenhall Van');
    await api.collection.undo();
    expect(await api.names.settled()).toEqual(list);
  });

  it('are near a casting also where they shorten its name', async () => {
    const { api } = await newCollectionService();
    await cars(api, [{ casting: 'Corriemuir Coupe' }, { casting: 'Corriemuir Cpe' }]);
    await api.names.settle({ texts: ['Corriemuir Coupe'], settlement: { as: 'casting' } });
    const near = async () => (await api.names.waiting()).names.map(({ near: one }) => one?.name);
    expect(await near()).toEqual(['Corriemuir Coupe']);
  });

  it('settled as a casting that there is, or as another release of it', async () => {
    const { api } = await newCollectionService();
    const { dovetail, oxbow, variations } = await addReference(api);
    await cars(api, [
      { casting: 'Dovetial', colour: 'Ember', rear_end: 'bar lamp' },
      { casting: 'Dovetails', maker: 'Quillon', colour: 'moss', rear_end: 'bar lamp' },
      { casting: 'Night Ox', release_year: '1972', colour: 'Sky' },
    ]);
    const [first, second] = (await api.names.waiting()).names;
    expect(first).toMatchObject({ name: 'Dovetial', cars: 2, near: { castingId: dovetail }, valued: 2 });
    expect(second).toMatchObject({ name: 'Night Ox', near: null });
    expect(await api.names.near({ name: 'Night Ox' })).toMatchObject([
      { castingId: oxbow },
      { castingId: dovetail },
    ]);
    await api.names.settle({ texts: ['Dovetial'], settlement: { as: 'same', castingId: dovetail } });
    await api.names.settle({ texts: ['Night Ox'], settlement: { as: 'release', castingId: oxbow } });
    expect((await api.cars.list({})).map(({ castingId, variationId }) => [castingId, variationId])).toEqual([
      [dovetail, variations.emberBar],
      [dovetail, variations.mossBar],
      [oxbow, null],
    ]);
    const { releaseRows } = await api.reference.casting({ id: oxbow });
    expect(releaseRows).toMatchObject([{ name: 'Oxbow' }, { name: 'Night Ox', year: 1972 }]);
    expect(await api.names.waiting()).toEqual({ names: [], cars: 0, sales: 0 });
  });

  it('are known at once when they are typed or imported later', async () => {
    const { api } = await newCollectionService();
    await shoebox(api);
    const { castingId } = await api.names.settle({ texts: ['Silver Kite'], settlement: { as: 'casting' } });
    await api.names.settle({ texts: ['Tin garage'], settlement: { as: 'not a car' } });
    const file = new File(['casting,colour\nSLIVER kites,red\nTin Garage,grey\n'], 'more.csv');
    const lot = { name: 'More', currency: 'USD' };
    await resultOf(await api.imports.run({ file, as: 'lot', lot }));
    const added = (await api.cars.list({ castingId: castingId! })).map(car => car.asWritten);
    expect(added).toMatchObject([
      { casting: 'Silver Kite' },
      { casting: 'Sliver Kites' },
      { casting: 'SLIVER kites' },
    ]);
    await api.sales.addLines({ text: '9/19/25, Sliver Kites C7, $31' });
    expect(await api.sales.list({ castingId: castingId! })).toHaveLength(2);
    expect(Object.keys(await waiting(api))).toEqual(['Brackenhall Van', 'Corriemuir Coupe']);
  });

  it('are settled many at once, and taken back at once', async () => {
    const { api } = await newCollectionService();
    await shoebox(api);
    const all = (await api.names.waiting()).names.map(({ name }) => name);
    const done = await api.names.settle({ texts: all, settlement: { as: 'casting', series: 'Slipwinds' } });
    expect(done).toMatchObject({ names: 4, cars: 7, sales: 4 });
    const castings = await api.reference.castings();
    expect(castings.map(({ name, series }) => `${series} ${name}`)).toEqual([
      'Slipwinds Brackenhall Van',
      'Slipwinds Corriemuir Coupe',
      'Slipwinds Silver Kite',
      'Slipwinds Tin garage',
    ]);
    await api.collection.undo();
    expect((await api.names.waiting()).names).toHaveLength(4);
    const gone = await refusalOf(
      api.names.settle({ texts: [all[0]!, 'Brass Gull'], settlement: { as: 'not a car' } }),
    );
    expect(gone.message).toContain('Brass Gull');
    expect((await api.names.waiting()).names).toHaveLength(4);
  });

  it('stay parted where their owner parted them, also after an undo of something else', async () => {
    const { api } = await newCollectionService();
    await cars(api, [{ casting: 'Silver Kite' }, { casting: 'Silver Kites' }, { casting: 'Sliver Kite' }]);
    expect(Object.keys(await waiting(api))).toEqual(['Silver Kite']);
    await api.names.part({ text: 'Sliver Kite' });
    expect(await waiting(api)).toEqual({ 'Silver Kite': [2, 0], 'Sliver Kite': [1, 0] });
    await cars(api, [{ casting: 'SLIVER KITE' }]);
    expect(await waiting(api)).toEqual({ 'Silver Kite': [2, 0], 'Sliver Kite': [2, 0] });
    await api.collection.undo();
    await api.collection.undo();
    expect(await waiting(api)).toEqual({ 'Silver Kite': [3, 0] });
    const { message } = await refusalOf(api.names.part({ text: 'Brackenhall' }));
    expect(message).toContain('does not wait');
  });

  it('follow an own sale that waited with its car', async () => {
    const { api } = await newCollectionService();
    const { ids } = await cars(api, [{ casting: 'Silver Kite' }]);
    await api.cars.dispose({ carId: ids[0]!, soldOn: '2026-02-01', proceeds: 4100, currency: 'USD' });
    const { castingId } = await api.names.settle({ texts: ['silver kite'], settlement: { as: 'casting' } });
    expect(await api.sales.list({ castingId: castingId! })).toMatchObject([{ price: 4100 }]);
  });
});

describe('the reference as it is put in order', () => {
  it('makes two castings one, with their cars, sales and later spellings, and parts them again by one undo', async () => {
    const { api } = await newCollectionService();
    await shoebox(api);
    const settle = async (text: string) =>
      (await api.names.settle({ texts: [text], settlement: { as: 'casting' } })).castingId!;
    const van = await settle('Brackenhall Van');
    const coupe = await settle('Corriemuir Coupe');
    const before = [await api.reference.casting({ id: van }), await api.reference.casting({ id: coupe })];
    await api.names.merge({ what: 'casting', into: van, from: coupe });
    expect(await api.reference.casting({ id: van })).toMatchObject({
      name: 'Brackenhall Van',
      cars: 4,
      saleRecords: 3,
    });
    const { releaseRows } = await api.reference.casting({ id: van });
    expect(releaseRows.map(({ name, year }) => [name, year])).toEqual([
      ['Brackenhall Van', 1968],
      ['Brackenhall Van', 1969],
      ['Brackenhall Van', 1971],
    ]);
    await cars(api, [{ casting: 'corriemuir COUPE' }]);
    expect(await api.cars.list({ castingId: van })).toHaveLength(5);
    await api.collection.undo();
    await api.collection.undo();
    expect([await api.reference.casting({ id: van }), await api.reference.casting({ id: coupe })]).toEqual(
      before,
    );
    expect((await refusalOf(api.names.merge({ what: 'casting', into: van, from: van }))).message).toContain(
      'itself',
    );
  });

  it('makes two releases or two variations one, of one casting only', async () => {
    const { api } = await newCollectionService();
    const { dovetail, variations } = await addReference(api);
    const { emberTwin, emberBar, skyOxbow } = variations;
    const sales = await api.sales.list({ variationId: emberBar });
    await api.names.merge({ what: 'variation', into: emberTwin, from: emberBar });
    expect(await api.sales.list({ variationId: emberTwin })).toHaveLength(sales.length + 3);
    const { releaseRows } = await api.reference.casting({ id: dovetail });
    const [first, second] = releaseRows;
    await api.names.merge({ what: 'release', into: first!.id, from: second!.id });
    const page = await api.reference.casting({ id: dovetail });
    expect(page.releaseRows).toHaveLength(1);
    expect(page.variationRows).toHaveLength(4);
    const refused = await refusalOf(api.names.merge({ what: 'variation', into: emberTwin, from: skyOxbow }));
    expect(refused.message).toContain('two castings');
  });

  it('puts many castings into one series by one choice', async () => {
    const { api } = await newCollectionService();
    await shoebox(api);
    const all = (await api.names.waiting()).names.map(({ name }) => name);
    await api.names.settle({ texts: all, settlement: { as: 'casting' } });
    const ids = (await api.reference.castings()).map(({ id }) => id);
    await api.names.moveCastings({ ids: ids.slice(1), series: 'Slipwinds', maker: 'Quillon Toys' });
    const homes = async () =>
      (await api.reference.castings()).map(({ series, maker }) => `${maker} ${series}`);
    expect(await homes()).toEqual([
      ...ids.slice(1).map(() => 'Quillon Toys Slipwinds'),
      'Unknown maker Unsorted',
    ]);
    await api.reference.saveCasting({ name: 'Silver Kite', series: 'Unsorted', maker: 'Unknown maker' });
    const twice = await api.reference.castings();
    const refused = await refusalOf(
      api.names.moveCastings({ ids: twice.map(({ id }) => id), series: 'Night Fair', maker: 'Quillon Toys' }),
    );
    expect(refused.message).toContain('two castings named Silver Kite');
    expect(await api.reference.castings()).toEqual(twice);
    await api.collection.undo();
    await api.names.moveCastings({ ids, series: 'Slipwinds', maker: 'Quillon Toys' });
    expect(new Set(await homes())).toEqual(new Set(['Quillon Toys Slipwinds']));
  });
});

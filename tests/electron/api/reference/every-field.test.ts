import { expect, it } from 'vitest';
import { newCollectionService, refusalOf } from '../../../helpers/api.ts';

it('every column of the reference can be filled by typing', async () => {
  const { api, session } = await newCollectionService();
  const { id: castingId } = await api.reference.saveCasting({
    maker: 'Quillon Toys',
    series: 'Slipwinds',
    name: 'Dovetail',
    bodyType: 'coupé',
    firstYear: 1968,
    lengthMm: 71.5,
    materials: 'zinc alloy',
    markings: 'QUILLON',
    notes: 'The first of its series',
    assembly: 'two rivets',
    bearings: 'captive',
    parts: [
      { part: 'post and rivet closure', detail: 'M2, drill 1.6 mm, 5 mm long', lookAt: 'a split post' },
      { part: 'wheels', detail: '9.4 mm' },
    ],
  });
  const features = {
    colour: 'Ember',
    bodyFinish: 'candy',
    basePaint: 'full',
    rearEnd: 'bar lamp',
    roof: 'black',
    interior: 'red',
    glazing: 'clear',
    wheels: 'spoked',
    accessory: 'case',
    country: 'Wrenmoor',
  };
  const details = { notes: 'Seen once', baseWords: 'PATENT APPLIED', wheelSizes: '9.4 and 10.1 mm' };
  const variation = {
    castingId,
    releaseName: 'Dovetail',
    releaseYear: 1968,
    features,
    rarity: 'rare' as const,
  };
  const { id: variationId } = await api.reference.saveVariation({
    ...variation,
    factorySpecification: 'One coat',
    ...details,
  });
  const page = await api.reference.casting({ id: castingId });
  const release = { ...page.releaseRows[0]!, changedPart: 'wider base', notes: 'From May on' };
  await api.reference.saveRelease(release);
  const [series] = await api.reference.series();
  await api.reference.saveSeries({
    ...series!,
    firstYear: 1968,
    lastYear: 1972,
    notes: 'Candy colours',
    country: 'Wrenmoor',
    makerNotes: 'Of the mill lane',
  });
  await api.reference.saveColour({ name: 'Ember', swatch: '#aa3311' });

  const { sqlite } = session.collection!.read;
  const empty = ['maker', 'series', 'casting', 'casting_part', 'release', 'variation', 'colour'].flatMap(
    table => {
      const [row] = sqlite.prepare(`SELECT * FROM ${table} ORDER BY id`).all() as Record<string, unknown>[];
      // The first part of all stands at place 0.
      return Object.entries(row ?? {})
        .filter(([column, value]) => (value === null || value === '') && column !== 'position')
        .map(([column]) => `${table}.${column}`);
    },
  );
  expect(empty).toEqual([]);

  // What is written of a variation stands on the page of each car that is one.
  const { id: lotId } = await api.lots.create({ name: 'Tin', currency: 'USD' });
  const { ids } = await api.cars.create({ lotId, cars: [{ inventoryNumber: 'Q-1', variationId }] });
  expect((await api.cars.get({ id: ids[0]! })).factorySpecification).toBe(
    'One coat. Base: PATENT APPLIED. Wheels: 9.4 and 10.1 mm.',
  );

  // What a change leaves out stays.
  const { id, maker, name } = page;
  await api.reference.saveCasting({ id, maker, series: page.series, name, bodyType: 'estate' });
  await api.reference.saveVariation({ ...variation, id: variationId });
  const after = await api.reference.casting({ id: castingId });
  expect(after).toMatchObject({ assembly: 'two rivets', bearings: 'captive' });
  expect(after.parts.map(({ part }) => part)).toEqual(['post and rivet closure', 'wheels']);
  expect(after.variationDetails).toEqual([{ id: variationId, ...details }]);

  await api.reference.saveVariation({ ...variation, releaseYear: 1971 });
  const [first, second] = (await api.reference.casting({ id: castingId })).releaseRows;
  const twice = await refusalOf(api.reference.saveRelease({ ...second!, year: first!.year }));
  expect(twice.message).toContain('another release of that name and year');
});

import { expect, it } from 'vitest';
import { type Api, newCollectionService, refusalOf } from '../../../helpers/api.ts';

const cars = (api: Api, named: Record<string, string>[]) =>
  api.cars.create({ lotId: null, cars: named.map(asWritten => ({ asWritten, grade: 6 })) });

/** Two castings on an empty reference, their cars told more and less fully. */
const settled = async () => {
  const service = await newCollectionService();
  const { api } = service;
  await cars(api, [
    { casting: 'Silver Kite', release_year: '1970', colour: 'aqua', rear_end: 'bar lamp' },
    { casting: 'Silver Kite', colour: 'Aqua ' },
    { casting: 'Silver Kite', colour: 'aqua', rear_end: 'twin lamps', base_paint: 'plain' },
    { casting: 'Silver Kite', colour: 'lime green' },
    { casting: 'Silver Kite', colour: 'lime' },
    { casting: 'Oxbow', colour: 'lime green' },
    { casting: 'Oxbow' },
  ]);
  await api.sales.addLines({ text: '3/14/25, Oxbow blue C5, $61.00' });
  for (const text of ['Silver Kite', 'Oxbow'])
    await api.names.settle({ texts: [text], settlement: { as: 'casting' } });
  return service;
};

const seen = async (api: Api) =>
  (await api.names.seen()).map(({ casting, colour, told, cars: of, sales, lesser }) => [
    `${casting} ${colour}${told && `, ${told}`}`,
    of,
    sales,
    lesser,
  ]);

const key = async (api: Api, colour: string, casting = 'Silver Kite') => {
  const found = (await api.names.seen()).find(one => one.colour === colour && one.casting === casting);
  if (!found) throw new Error(`${casting} in ${colour} was not seen`);
  return found.key;
};

it('what no variation has is listed most fully told, with what says less of it alone', async () => {
  const { api } = await settled();
  expect(await seen(api)).toEqual([
    ['Oxbow lime green', 1, 0, 0],
    ['Oxbow blue', 0, 1, 0],
    ['Silver Kite aqua, base paint plain, rear end twin lamps', 1, 0, 0],
    ['Silver Kite aqua, rear end bar lamp', 1, 0, 0],
    ['Silver Kite lime green', 1, 0, 0],
    ['Silver Kite lime', 1, 0, 0],
  ]);
});

it('becomes variations, and its cars and sale records are identified by them; undo takes all back', async () => {
  const { api } = await settled();
  const before = await api.names.seen();
  const done = await api.names.settleSeen({
    keys: before.map(one => one.key),
    settlement: { as: 'variation' },
  });
  expect(done).toMatchObject({ cars: 7, sales: 1 });
  expect(await api.names.seen()).toEqual([]);
  const rows = await api.cars.list({});
  expect(rows.map(row => row.identified)).toEqual([
    'variation',
    'casting',
    'variation',
    'variation',
    'variation',
    'variation',
    'casting',
  ]);
  await api.collection.undo();
  expect(await api.names.seen()).toEqual(before);
});

it('is the same as a variation there is, or its colour is a word for another', async () => {
  const { api } = await settled();
  await api.names.settleSeen({ keys: [await key(api, 'lime')], settlement: { as: 'variation' } });
  const done = await api.names.settleSeen({
    keys: [await key(api, 'lime green')],
    settlement: { as: 'word', colour: 'lime' },
  });
  expect(done).toEqual({ cars: 2, sales: 0 });
  expect((await api.words.list()).words).toMatchObject([
    { text: 'lime green', field: 'colour', meaning: 'lime' },
  ]);
  const [, , , fourth, fifth, oxbow] = await api.cars.list({});
  expect(fourth?.variationId).toBe(fifth?.variationId);
  expect(fourth?.variationId).not.toBeNull();
  expect(oxbow?.asWritten).toMatchObject({ colour: 'lime' });
  await api.names.settleSeen({ keys: [await key(api, 'blue', 'Oxbow')], settlement: { as: 'variation' } });
  const { variationRows } = await api.reference.casting({ id: oxbow!.castingId! });
  await api.names.settleSeen({
    keys: [await key(api, 'lime', 'Oxbow')],
    settlement: { as: 'same', variationId: variationRows[0]!.id },
  });
  expect((await api.cars.list({}))[5]?.variationId).toBe(variationRows[0]?.id);
  const other = await refusalOf(
    api.names.settleSeen({
      keys: [(await api.names.seen())[0]!.key],
      settlement: { as: 'same', variationId: variationRows[0]!.id },
    }),
  );
  expect(other.message).toContain('another casting');
});

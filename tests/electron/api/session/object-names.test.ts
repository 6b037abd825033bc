import { expect, it } from 'vitest';
import { type Api, newCollectionService, resultOf } from '../../../helpers/api.ts';

/** As a sender's JSON makes them: entries of their own, under names that every object answers to. */
const hostile = (): Record<string, string> =>
  JSON.parse('{"__proto__":"polluted","constructor":"polluted","casting":"Whoosh"}');

const expectUnpolluted = () => {
  expect('polluted' in {}).toBe(false);
  expect({}.constructor).toBe(Object);
  expect(Object.keys(Object.prototype)).toEqual([]);
};

const written = async (api: Api) => (await api.cars.list({})).map(car => ({ ...car.asWritten }));

it('takes a text under any name as text, and lets none reach a prototype', async () => {
  const { api } = await newCollectionService();
  const { ids } = await api.cars.create({ lotId: null, cars: [{ asWritten: hostile() }] });
  const [id = 0] = ids;
  const [car] = await written(api);
  expect(car?.casting).toBe('Whoosh');
  expect(Object.getPrototypeOf(car)).toBe(Object.prototype);
  await api.cars.update({ changes: [{ id, patch: { asWritten: hostile() } }] });
  await api.cars.update({ changes: [{ id, patch: { asWritten: { colour: 'Plum' } } }] });
  expect(await written(api)).toMatchObject([{ casting: 'Whoosh', colour: 'Plum' }]);
  expect((await api.cars.get({ id })).asWritten.casting).toBe('Whoosh');
  await api.collection.undo();
  await api.collection.redo();
  expectUnpolluted();
});

it('imports with a mapping under any name', async () => {
  const { api } = await newCollectionService();
  const run = (map: string, csv: string) =>
    api.imports
      .run({
        file: new File([csv], 'list.csv'),
        as: 'lot',
        map: JSON.parse(map),
        lot: { name: 'Loft', currency: 'USD', costs: [] },
      })
      .then(resultOf);
  const taken = await run('{"constructor":"casting"}', 'constructor,__proto__\nWhoosh,x\n');
  expect(taken).toMatchObject({ accepted: 1, rejected: [] });
  expect(await written(api)).toEqual([{ casting: 'Whoosh' }]);
  await expect(run('{"Car":"__proto__"}', 'Car\nWhoosh\n')).rejects.toThrow('not one of our columns');
  await expect(run('{"constructor":"casting"}', 'Car\nWhoosh\n')).rejects.toThrow('no heading');
  expectUnpolluted();
});

import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { columnMapping } from '../../../electron/cli/arguments.ts';
import { readBasePaint, readFinishState, readParts, readRarity } from '../../../valuation/reading/words.ts';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, fixture, lookAt, newLot, take } from './importing.ts';

/** Names that every object answers to; a file may use them as well as any other. */
const names = ['__proto__', 'constructor', 'toString', 'hasOwnProperty'];

const prototype = Object.getOwnPropertyNames(Object.prototype).sort();
const lot = newLot('Barn tin');
let collection: Collection;
beforeEach(async () => {
  collection = await newCollection();
  await take(collection, fixture('club-list.csv'), { as: 'reference' });
});
afterEach(() => {
  expect(Object.getOwnPropertyNames(Object.prototype).sort()).toEqual(prototype);
  expect(Object.keys({})).toEqual([]);
  for (const name of ['casting', 'x', 'colour']) expect(name in {}).toBe(false);
});

describe.each(names)('a file that says %s', name => {
  it('as a heading has that column left out', async () => {
    const preview = await lookAt(collection, fileOf(`casting,${name}\nOsmerry,x\n`), { as: 'lot' });
    expect(preview.columns[1]).toMatchObject({ heading: name, ours: null, how: 'not used' });
    const result = await take(collection, fileOf(`casting,${name}\nOsmerry,x\n`), { as: 'lot', lot });
    expect(result).toMatchObject({ accepted: 1, rejected: [] });
    expect(Object.keys((await listCars(collection.read.db))[0]?.asWritten ?? {})).toEqual(['casting']);
  });

  it('as a heading has it mapped to a column of ours like any other', async () => {
    const map = columnMapping(`${name}=casting`, columnMapping('Paint=colour', {}));
    expect(Object.entries(map)).toEqual([
      ['Paint', 'colour'],
      [name, 'casting'],
    ]);
    const file = fileOf(`${name},Paint\nOsmerry,x\n`);
    expect(await take(collection, file, { as: 'lot', lot, map })).toMatchObject({
      accepted: 1,
      rejected: [],
    });
    expect((await listCars(collection.read.db))[0]?.asWritten).toEqual({ casting: 'Osmerry', colour: 'x' });
  });

  it('cannot be mapped to a column of that name, since we have none', async () => {
    const file = fileOf('Car\nOsmerry\n');
    const map = columnMapping(`Car=${name}`, {});
    await expect(lookAt(collection, file, { as: 'lot', map })).rejects.toThrow('not one of our columns');
    const absent = columnMapping(`${name}=casting`, {});
    await expect(lookAt(collection, file, { as: 'lot', map: absent })).rejects.toThrow('no heading');
  });

  it('in cells has it kept as text, and not understood where a word of ours is meant', async () => {
    const rows = `casting,colour,finish_state\n${name},${name},original\nOsmerry,,${name}\n`;
    const result = await take(collection, fileOf(rows), { as: 'lot', lot });
    expect(result).toMatchObject({ accepted: 2, rejected: [] });
    expect(result.notUnderstood).toMatchObject([{ column: 'finish_state', text: name, lines: [3] }]);
    expect((await listCars(collection.read.db))[0]?.asWritten).toEqual({ casting: name, colour: name });
    for (const parse of [readFinishState, readBasePaint, readRarity, readParts])
      expect(parse(name)).toMatchObject({ ok: false });
  });
});

import { describe, expect, it } from 'vitest';
import { listHistory } from '../../../db/history/history.ts';
import { redo, undo } from '../../../db/history/undo.ts';
import { runImport } from '../../../db/import/index.ts';
import { search } from '../../../db/search/search.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, fixture, newLot, optionsOf, take } from './importing.ts';

const tables = [
  'maker',
  'series',
  'casting',
  'release',
  'variation',
  'casting_feature',
  'lot',
  'car',
  'car_candidate',
  'sale_record',
];

const manyCars = (rows: number): File =>
  fileOf(`no,casting,notes\n${Array.from({ length: rows }, (_, i) => `N-${i},Osmerry,row ${i}\n`).join('')}`);

describe('an import', () => {
  it('is one action: one undo takes it back whole, and redo brings it again', async () => {
    const collection = await newCollection();
    const counts = () => tables.map(table => countOf(collection, table));
    const states = [counts()];
    await take(collection, fixture('club-list.csv'), { as: 'reference' });
    states.push(counts());
    await take(collection, fixture('barn-tin.csv'), { as: 'lot', lot: newLot('Barn tin') });
    states.push(counts());
    await take(collection, fixture('seen-sales.csv'), { as: 'sales', addReference: true });
    states.push(counts());
    expect((await listHistory(collection.read.db)).map(action => action.label)).toEqual([
      'Imported sale records from seen-sales.csv',
      'Imported the lot "Barn tin"',
      'Imported reference from club-list.csv',
    ]);
    for (const before of [2, 1, 0]) {
      await undo(collection);
      expect(counts()).toEqual(states[before]);
    }
    for (const after of [1, 2, 3]) {
      await redo(collection);
      expect(counts()).toEqual(states[after]);
    }
  });

  it('is found by search at once, and no longer once it is undone', async () => {
    const collection = await newCollection();
    await take(collection, fixture('barn-tin.csv'), { as: 'lot', lot: newLot('Barn tin') });
    const found = async () => (await search(collection.read.db, 'estate', 10)).length;
    expect(await found()).toBeGreaterThan(0);
    await undo(collection);
    expect(await found()).toBe(0);
  });

  it('that is cancelled takes nothing, and the next one works', async () => {
    const collection = await newCollection();
    const stop = new AbortController();
    let reported = 0;
    const file = manyCars(5000);
    const work = runImport({
      collection,
      file,
      name: file.name,
      options: optionsOf({ as: 'lot', lot: newLot('Tin') }),
      at,
      signal: stop.signal,
      onProgress: done => {
        reported = done;
        if (done >= 2000) stop.abort();
      },
    });
    await expect(work).rejects.toThrow(/abort/i);
    expect(reported).toBeGreaterThanOrEqual(2000);
    expect([countOf(collection, 'car'), countOf(collection, 'lot'), countOf(collection, 'change')]).toEqual([
      0, 0, 0,
    ]);
    expect(await take(collection, manyCars(10), { as: 'lot', lot: newLot('Tin') })).toMatchObject({
      accepted: 10,
    });
  });

  it('that fails half-way takes nothing', async () => {
    const collection = await newCollection();
    const file = manyCars(1200);
    const work = runImport({
      collection,
      file,
      name: file.name,
      options: optionsOf({ as: 'lot', lot: newLot('Tin') }),
      at,
      afterwards: async () => {
        throw new Error('the cost could not be shared');
      },
    });
    await expect(work).rejects.toThrow('could not be shared');
    expect(countOf(collection, 'car')).toBe(0);
    expect(countOf(collection, 'lot')).toBe(0);
  });

  it('that is only tried takes nothing, and tells what it would do', async () => {
    const collection = await newCollection();
    for (const as of ['lot', 'sales', 'reference'] as const) {
      const file = fixture({ lot: 'barn-tin.csv', sales: 'seen-sales.csv', reference: 'club-list.csv' }[as]);
      const options = { as, addReference: true, ...(as === 'lot' && { lot: newLot('Barn tin') }) };
      const tried = await take(collection, file, { ...options, dryRun: true });
      expect(tables.map(table => countOf(collection, table)).every(count => count === 0)).toBe(true);
      const taken = await take(collection, file, options);
      expect({ ...taken, lot: undefined, lots: undefined }).toEqual({ ...tried, lot: undefined });
      await undo(collection);
    }
  });
});

import type { Transaction } from 'kysely';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Collection } from '../../../../db/collection.ts';
import { runAction } from '../../../../db/history/history.ts';
import { undo } from '../../../../db/history/undo.ts';
import { mergeCastings, mergeReleases } from '../../../../db/records/names/merge-castings.ts';
import { mergeVariations } from '../../../../db/records/names/merge-variations.ts';
import type { Schema } from '../../../../db/schema.ts';
import { search } from '../../../../db/search/search.ts';
import { at, newCollection } from '../../../helpers/collections.ts';

const later = '2026-04-01T10:00:00.000Z';

let collection: Collection;
const rows = (table: string, columns: string, order = 'id') =>
  collection.read.sqlite.prepare(`SELECT ${columns} FROM ${table} ORDER BY ${order}`).raw().all();

/** Rows with numbers from one on; the columns of the first stand for all. */
const add = (table: string, ...list: Record<string, string | number | null>[]) => {
  const columns = Object.keys(list[0]!);
  const insert = collection.write.sqlite.prepare(
    `INSERT INTO ${table} (id, ${columns.join()}) VALUES (?, ${columns.map(() => '?').join()})`,
  );
  for (const [i, row] of list.entries()) insert.run(i + 1, ...columns.map(column => row[column]));
};

/**
 * Dovetail (1) and Harrow (2), which is the same tooling. Of the variations 1 and 2 are equal but for how they
 * are written, as are 3 and 4; 5 belongs to another name of Harrow.
 */
beforeEach(async () => {
  collection = await newCollection();
  await runAction(collection, 'Entered two castings', at, async () => {
    add('maker', { name: 'Quillon Toys' });
    add('series', { maker_id: 1, name: 'Weir' });
    add(
      'casting',
      { series_id: 1, name: 'Dovetail', first_year: null, notes: 'Two posts', bearings: '' },
      { series_id: 1, name: 'Harrow', first_year: 1969, notes: 'Heavy', bearings: 'captive' },
    );
    add(
      'casting_part',
      { casting_id: 1, part: 'base', detail: 'M2 thread' },
      { casting_id: 2, part: 'base', detail: 'Brass posts' },
      { casting_id: 2, part: 'wheels', detail: 'Dished' },
    );
    add(
      'casting_feature',
      { casting_id: 1, feature: 'interior', value: 'red' },
      { casting_id: 2, feature: 'interior', value: 'RED' },
      { casting_id: 2, feature: 'interior', value: 'tan' },
    );
    add(
      'release',
      { casting_id: 1, name: 'Dovetail', year: 1969, changed_part: '', notes: 'Early' },
      { casting_id: 2, name: 'Harrow', year: 1969, changed_part: 'Posts', notes: 'Late' },
      { casting_id: 2, name: 'Night Harrow', year: null, changed_part: '', notes: '' },
    );
    add(
      'variation',
      { release_id: 1, colour: 'Ember', notes: 'Deep', rarity: null },
      { release_id: 2, colour: 'ember ', notes: 'Thin', rarity: 'scarce' },
      { release_id: 2, colour: 'Moss', notes: '', rarity: null },
      { release_id: 2, colour: 'Moss ', notes: 'Flat', rarity: null },
      { release_id: 3, colour: 'Sky', notes: '', rarity: null },
    );
    const car = { release_id: null, variation_id: null, as_written: '{}', created_at: at, updated_at: at };
    add(
      'car',
      { inventory_number: '1', casting_id: 2, ...car, release_id: 2, variation_id: 2 },
      { inventory_number: '2', casting_id: 2, ...car },
      { inventory_number: '3', casting_id: 2, ...car },
      { inventory_number: '4', casting_id: 2, ...car, as_written: '{"colour":"Ember"}' },
      { inventory_number: '5', casting_id: 2, ...car, release_id: 3 },
    );
    add(
      'car_candidate',
      { car_id: 2, variation_id: 2 },
      { car_id: 2, variation_id: 5 },
      { car_id: 3, variation_id: 3 },
      { car_id: 3, variation_id: 4 },
    );
    const sale = { sold_on: '2025-03-04', price_minor: 2000, currency: 'USD' };
    add(
      'sale_record',
      { ...sale, casting_id: 2, variation_id: 2, identity: 'a' },
      { ...sale, casting_id: 2, variation_id: null, identity: 'b' },
    );
    const belief = {
      grade_half: 16,
      low_minor: 100,
      high_minor: 200,
      currency: 'USD',
      believed_on: '2025-01-01',
    };
    add(
      'belief',
      { casting_id: 2, variation_id: null, ...belief },
      { casting_id: null, variation_id: 2, ...belief },
    );
    add('photo', {
      sha256: 'a',
      format: 'png',
      bytes: 1,
      width: 1,
      height: 1,
      variation_id: 2,
      added_at: at,
    });
    add('part', { name: 'Wheel', casting_id: 2 });
    add('casting_set', { name: 'Wanted', made_at: at }, { name: 'Shown', made_at: at });
    const none = { casting_id: null, release_id: null, variation_id: null };
    add(
      'casting_set_member',
      { set_id: 1, ...none, casting_id: 2 },
      { set_id: 2, ...none, casting_id: 2 },
      { set_id: 2, ...none, casting_id: 1 },
      { set_id: 1, ...none, release_id: 2 },
      { set_id: 2, ...none, release_id: 2 },
      { set_id: 2, ...none, release_id: 1 },
      { set_id: 1, ...none, variation_id: 2 },
      { set_id: 2, ...none, variation_id: 2 },
      { set_id: 2, ...none, variation_id: 1 },
    );
    add(
      'settled_name',
      { text: 'Harow', means: 'casting', casting_id: 2, release_id: null, settled_at: at },
      { text: 'Harrow 69', means: 'release', casting_id: 2, release_id: 2, settled_at: at },
      { text: 'Night H', means: 'release', casting_id: 2, release_id: 3, settled_at: at },
    );
    add(
      'settled_variation',
      { casting_id: 2, variation_id: 2, seen: 'embers', settled_at: at },
      { casting_id: 2, variation_id: 5, seen: 'skies', settled_at: at },
      { casting_id: 1, variation_id: 1, seen: 'embers', settled_at: at },
      { casting_id: 2, variation_id: 2, seen: 'coals', settled_at: at },
    );
  });
});

const merged = (work: (trx: Transaction<Schema>) => Promise<unknown>) =>
  runAction(collection, 'Merged', later, work);

describe('two castings made one', () => {
  const merge = (keepName = false) =>
    merged(trx => mergeCastings(trx, { into: 1, from: 2, keepName }, later));

  it('have what both said, once each', async () => {
    await merge();
    expect(rows('casting', 'id, name, first_year, notes, bearings')).toEqual([
      [1, 'Dovetail', 1969, 'Two posts\nHeavy', 'captive'],
    ]);
    expect(rows('casting_part', 'casting_id, part, detail')).toEqual([
      [1, 'base', 'M2 thread\nBrass posts'],
      [1, 'wheels', 'Dished'],
    ]);
    expect(rows('casting_feature', 'casting_id, value')).toEqual([
      [1, 'red'],
      [1, 'tan'],
    ]);
  });

  it('have their releases and variations together, those that are equal as one', async () => {
    await merge();
    expect(rows('release', 'id, casting_id, name, year, changed_part, notes')).toEqual([
      [1, 1, 'Dovetail', 1969, 'Posts', 'Early\nLate'],
      [3, 1, 'Night Harrow', null, '', ''],
    ]);
    expect(rows('variation', 'id, release_id, colour, notes, rarity')).toEqual([
      [1, 1, 'Ember', 'Deep\nThin', 'scarce'],
      [3, 1, 'Moss', 'Flat', null],
      [5, 3, 'Sky', '', null],
    ]);
  });

  it('have all cars and sale records, which follow what is known now', async () => {
    await merge();
    expect(rows('car', 'id, casting_id, release_id, variation_id, updated_at')).toEqual([
      [1, 1, 1, 1, later],
      [2, 1, null, null, later],
      [3, 1, 1, 3, later],
      [4, 1, 1, 1, later],
      [5, 1, 3, null, later],
    ]);
    expect(rows('car_candidate', 'car_id, variation_id', 'car_id, variation_id')).toEqual([
      [2, 1],
      [2, 5],
    ]);
    expect(rows('sale_record', 'casting_id, variation_id')).toEqual([
      [1, 1],
      [1, null],
    ]);
  });

  it('have the beliefs, photographs, spare parts and places in sets of both', async () => {
    await merge();
    expect(rows('belief', 'casting_id, variation_id')).toEqual([
      [1, null],
      [null, 1],
    ]);
    expect(rows('photo', 'variation_id')).toEqual([[1]]);
    expect(rows('part', 'casting_id')).toEqual([[1]]);
    expect(
      rows(
        'casting_set_member',
        'set_id, casting_id, release_id, variation_id',
        'set_id, casting_id DESC, release_id DESC',
      ),
    ).toEqual([
      [1, 1, null, null],
      [1, null, 1, null],
      [1, null, null, 1],
      [2, 1, null, null],
      [2, null, 1, null],
      [2, null, null, 1],
    ]);
  });

  it('are known by every spelling of both', async () => {
    await merge();
    expect(rows('settled_name', 'text, casting_id, release_id', 'text')).toEqual([
      ['Harow', 1, null],
      ['Harrow', 1, null],
      ['Harrow 69', 1, 1],
      ['Night H', 1, 3],
    ]);
    expect(rows('settled_variation', 'casting_id, variation_id, seen', 'seen')).toEqual([
      [1, 1, 'coals'],
      [1, 1, 'embers'],
      [1, 5, 'skies'],
    ]);
  });

  it('keep the name that was another name of the same tooling as a release', async () => {
    await merge(true);
    expect(rows('release', 'id, casting_id, name, year')).toEqual([
      [1, 1, 'Dovetail', 1969],
      [2, 1, 'Harrow', 1969],
      [3, 1, 'Night Harrow', null],
    ]);
    expect(rows('settled_name', 'casting_id', 'text')).toEqual([[1], [1], [1], [1]]);
  });

  it('are two once more when it is undone, as they were and as they are found', async () => {
    const cars = rows('car', '*');
    const found = (text: string) => search(collection.read.db, text, 20);
    const before = [await found('Harrow'), await found('Dovetail')];
    await merge();
    expect([await found('Harrow'), await found('Dovetail')]).not.toEqual(before);
    await undo(collection);
    expect(rows('car', '*')).toEqual(cars);
    expect([await found('Harrow'), await found('Dovetail')]).toEqual(before);
  });
});

describe('what is made one within a casting', () => {
  it('of releases has the year and the texts of both', async () => {
    await merged(trx => mergeReleases(trx, { into: 3, from: 2 }, later));
    expect(rows('release', 'id, name, year, changed_part, notes')).toEqual([
      [1, 'Dovetail', 1969, '', 'Early'],
      [3, 'Night Harrow', 1969, 'Posts', 'Late'],
    ]);
    expect(rows('variation', 'id, release_id')).toEqual([
      [1, 1],
      [2, 3],
      [3, 3],
      [5, 3],
    ]);
    expect(rows('settled_name', 'text, casting_id, release_id', 'text')).toEqual([
      ['Harow', 2, null],
      ['Harrow 69', 2, 3],
      ['Night H', 2, 3],
    ]);
  });

  it('of variations decides a car that may be nothing else', async () => {
    await merged(trx => mergeVariations(trx, { into: 3, from: 4 }, later));
    expect(rows('car', 'id, release_id, variation_id').slice(1, 3)).toEqual([
      [2, null, null],
      [3, 2, 3],
    ]);
    expect(rows('car_candidate', 'car_id, variation_id')).toEqual([
      [2, 2],
      [2, 5],
    ]);
  });
});

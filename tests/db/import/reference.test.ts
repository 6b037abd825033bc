import { describe, expect, it } from 'vitest';
import { listVariations } from '../../../db/reference/reference.ts';
import { newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, fixture, rejections, take } from './importing.ts';

describe.each(['csv', 'xlsx'])('a list of what there is, as %s', format => {
  const file = fixture(`club-list.${format}`);

  it('gives makers, series, castings, releases and variations, each once', async () => {
    const collection = await newCollection();
    const result = await take(collection, file, { as: 'reference' });
    expect(result).toMatchObject({ accepted: 7, duplicates: 1, duplicateLines: [10] });
    expect(rejections(result)).toEqual([[9, 'Name', 'the casting has no name']]);
    expect(['maker', 'series', 'casting', 'release'].map(table => countOf(collection, table))).toEqual([
      2, 3, 4, 6,
    ]);
    expect(result.notUnderstood).toMatchObject([
      { column: 'Year', text: 'about 1970', count: 1, lines: [8] },
    ]);
    const notes = collection.read.sqlite
      .prepare("SELECT notes FROM variation WHERE notes <> ''")
      .pluck()
      .all();
    expect(notes).toEqual(['Year: about 1970']);
    const variations = await listVariations(collection.read.db);
    expect(
      variations.map(({ releaseName, releaseYear, features, rarity }) => [
        releaseName,
        releaseYear,
        features.colour,
        features.basePaint,
        features.rearEnd,
        rarity,
      ]),
    ).toEqual(
      expect.arrayContaining([
        ['Bellmarsh Sweep', 1967, 'Damson', 'rear quarter', 'round lamps', 'common'],
        ['Morning Milk', 1972, 'Whey', 'none', 'double doors', 'rare'],
        ['Osmerry', 1966, 'Peat Bank', 'none', 'round lamps', null],
        ['Halcyard', 1970, 'Copperleaf', '', 'twin lamps', 'scarce'],
      ]),
    );
  });

  it('is known when it is imported again', async () => {
    const collection = await newCollection();
    await take(collection, file, { as: 'reference' });
    const again = await take(collection, file, { as: 'reference' });
    expect(again).toMatchObject({ accepted: 0, duplicates: 8 });
    expect(countOf(collection, 'variation')).toBe(7);
  });
});

it('a list without maker and series goes to the casting that is known, else apart', async () => {
  const collection = await newCollection();
  await take(collection, fixture('club-list.csv'), { as: 'reference' });
  const more = await take(collection, fileOf('casting,colour\nOsmerry,Ember\nIsobar,Ember\n'), {
    as: 'reference',
  });
  expect(more.accepted).toBe(2);
  expect(countOf(collection, 'casting')).toBe(5);
  expect(countOf(collection, 'maker')).toBe(2);
});

it('fills every column of the reference that is still blank, and changes none that is filled', async () => {
  const collection = await newCollection();
  const given: Record<string, string> = {
    maker: 'Quillon Toys',
    series: 'Slipwinds',
    casting: 'Dovetail',
    release_name: 'Night Dovetail',
    release_year: '1971',
    colour: 'Ember',
    body_finish: 'candy',
    base_paint: 'full',
    rear_end: 'bar lamp',
    roof: 'black',
    interior: 'red',
    glazing: 'clear',
    wheels: 'spoked',
    accessory: 'case',
    country: 'Wrenmoor',
    rarity: 'rare',
    maker_country: 'Wrenmoor',
    maker_notes: 'Of the mill lane',
    series_first_year: '1966',
    series_last_year: '1974',
    series_notes: 'Candy colours',
    body_type: 'coupé',
    first_year: '1968',
    length_mm: '71.5 mm',
    materials: 'zinc alloy',
    markings: 'QUILLON',
    assembly: 'two rivets',
    bearings: 'captive',
    casting_notes: 'The first of its series',
    parts: 'axles: 1.10 mm, thread M1.2; post and rivet closure: drill 1.6 mm',
    changed_part: 'wider base',
    release_notes: 'From May on',
    factory_specification: 'One coat',
    variation_notes: 'Seen once',
    base_words: 'PATENT APPLIED',
    wheel_sizes: '9.4 and 10.1 mm',
  };
  const quoted = (cells: string[]) => cells.map(cell => `"${cell}"`).join(',');
  const list = (row: Record<string, string>) =>
    `${quoted(Object.keys(row))}\n${quoted(Object.values(row))}\n`;
  const result = await take(collection, fileOf(list(given)), { as: 'reference' });
  expect(result).toMatchObject({ accepted: 1, notUnderstood: [] });
  const row = (table: string) =>
    collection.read.sqlite.prepare(`SELECT * FROM ${table} ORDER BY id`).get() as Record<string, unknown>;
  const empty = [
    'maker',
    'series',
    'casting',
    'casting_part',
    'casting_feature',
    'release',
    'variation',
  ].flatMap(table =>
    Object.entries(row(table))
      .filter(([, value]) => value === null || value === '')
      .map(([column]) => `${table}.${column}`),
  );
  // What to look at is the owner's own, and typed.
  expect(empty).toEqual(['casting_part.look_at']);
  expect(row('casting')).toMatchObject({ first_year: 1968, length_mm: 71.5, bearings: 'captive' });
  expect(countOf(collection, 'casting_part')).toBe(2);

  const other = {
    ...given,
    colour: 'Moss',
    casting_notes: 'Otherwise',
    bearings: 'open',
    parts: 'axles: thin',
    length_mm: 'short',
  };
  const more = await take(collection, fileOf(list(other)), { as: 'reference' });
  expect(more).toMatchObject({ accepted: 1, notUnderstood: [{ column: 'length_mm', text: 'short' }] });
  expect(row('casting')).toMatchObject({ notes: 'The first of its series', bearings: 'captive' });
  expect(row('casting_part')).toMatchObject({ detail: '1.10 mm, thread M1.2' });
  const notes = collection.read.sqlite.prepare('SELECT notes FROM variation ORDER BY id').pluck().all();
  expect(notes).toEqual(['Seen once', 'Seen once\nlength_mm: short']);
});

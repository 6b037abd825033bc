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

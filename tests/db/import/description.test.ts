import { describe, expect, test } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import type { ImportKind, ImportRowView } from '../../../db/import/index.ts';
import { newCollection } from '../../helpers/collections.ts';
import { strangersFile } from '../../helpers/strangers.ts';
import { countOf, fileOf, lookAt, newLot, take } from './importing.ts';

const withReference = async (): Promise<Collection> => {
  const collection = await newCollection();
  await take(collection, fileOf(strangersFile('reference.csv')), { as: 'reference' });
  return collection;
};

/** The fields and what was not understood of each row of the list. */
const read = async (
  collection: Collection,
  text: string,
  as: ImportKind,
  options: { map?: Record<string, string | null> } = {},
): Promise<[Record<string, unknown>, string[]][]> => {
  const { rows = [] } = await take(collection, fileOf(text), { as, rows: true, dryRun: true, ...options });
  return rows
    .filter(({ not }: ImportRowView) => not !== 'headings' && not !== 'a title')
    .map(({ fields, unread, not }: ImportRowView) => [
      not === null ? fields : { not },
      unread.map(one => one.text),
    ]);
};

describe('a column that describes cars in words', () => {
  test('is read as one, by its heading or by what it holds, in a file of one cell a row', async () => {
    const rows = await read(await withReference(), strangersFile('one-cell.csv'), 'lot');
    expect(rows.slice(0, 6)).toEqual([
      [
        {
          casting: 'Brackenhall Van',
          colour: 'purple',
          release_year: 1968,
          base_paint: 'front quarter',
          grade: 7,
        },
        [],
      ],
      [
        { casting: 'Corriemuir Coupe', colour: 'lime green', grade: 3 },
        ['roof scuffed', 'rear window scratched'],
      ],
      [{ casting: 'Silver Kite', colour: 'aqua', grade: 6, missing_parts: 'accessory' }, []],
      [
        {
          casting: 'Silver Kite',
          colour: 'Honeycomb',
          accessory: 'engine cover',
          base_paint: 'full',
          grade: 8.5,
        },
        [],
      ],
      [{ casting: 'Dovecote Estate', colour: 'Dairy White', missing_parts: 'accessory' }, []],
      [{ casting: 'Sluice Racer', colour: 'Ember', quantity: 2 }, ['both rough']],
    ]);
    expect(rows.at(-1)).toEqual([{ colour: 'green' }, ['some sort of truck']]);
  });

  test('yields a name that waits to be settled where there is no reference, and never a casting', async () => {
    const collection = await newCollection();
    const sold = 'date,title,price\n3/14/26,"Wobbleston Flyer purple C8 original, nice",$61.00\n';
    const { accepted, addedCastings } = await take(collection, fileOf(sold), {
      as: 'sales',
      addReference: true,
    });
    expect([accepted, addedCastings, countOf(collection, 'casting')]).toEqual([1, 0, 0]);
    const [written] = collection.write.sqlite.prepare('SELECT as_written FROM sale_record').pluck().all();
    expect(JSON.parse(String(written))).toEqual({ casting: 'Wobbleston Flyer', colour: 'purple' });
    expect((await lookAt(collection, fileOf(sold), { as: 'sales' })).missingCastings).toEqual([]);
  });

  test('gives sale records of known castings with all that the title says, and leaves out what is no car', async () => {
    const rows = await read(
      await withReference(),
      'date,title,price\n13/1/26,"Silver Kite honeycomb full paint base C7.5, all original",$210.00\n' +
        '14/1/26,"Quillon Toys dealer poster, 1970",$8.00\n14/1/26,"lot of 4 played with Meadow cars",$40.00\n',
      'sales',
    );
    expect(rows).toEqual([
      [
        {
          casting: 'Silver Kite',
          colour: 'Honeycomb',
          base_paint: 'full',
          grade: 7.5,
          finish_state: 'original',
          sold_on: '2026-01-13',
          price: 210,
          currency: 'USD',
        },
        [],
      ],
      [{ not: 'not a car' }, []],
      [{ not: 'lot' }, []],
    ]);
  });

  test('may be all there is of a sale, with its day and price; their order is learned from all lines', async () => {
    const collection = await withReference();
    const lines =
      '3/4/26, Silver Kite aqua C6, $25\n3/13/26, Brackenhall Van purple beater for parts, $14.50\n1/7/26, Corriemuir Coupe (1969) Inkwell, C8 orig paint, $64.00\n';
    const { columns, learned } = await lookAt(collection, fileOf(lines), { as: 'sales' });
    expect(columns.map(({ ours, how }) => [ours, how])).toEqual([['description', 'by its cells']]);
    expect(learned[0]).toMatchObject({ kind: 'dates', value: 'mdy', examples: ['3/13/26'] });
    const rows = await read(collection, lines, 'sales');
    expect(rows.map(([fields]) => [fields.sold_on, fields.price, fields.casting])).toEqual([
      ['2026-03-04', 25, 'Silver Kite'],
      ['2026-03-13', 14.5, 'Brackenhall Van'],
      ['2026-01-07', 64, 'Corriemuir Coupe'],
    ]);
  });

  test('gives way to columns of their own, and what it says otherwise stays as not understood', async () => {
    const rows = await read(
      await withReference(),
      'Car,Colour,Title\nSilver Kite,Honeycomb,"Silver Kite aqua C6, no ramp, as found"\n',
      'lot',
      { map: { Title: 'description' } },
    );
    expect(rows).toEqual([
      [
        { casting: 'Silver Kite', colour: 'Honeycomb', grade: 6, missing_parts: 'accessory' },
        ['aqua', 'as found'],
      ],
    ]);
  });
});

test('columns without headings are known by what they hold', async () => {
  const collection = await newCollection();
  const { columns, counts } = await lookAt(collection, fileOf(strangersFile('no-headings.csv')), {
    as: 'lot',
    lot: newLot('Tin'),
  });
  expect(columns.map(({ ours }) => ours)).toEqual([
    'inventory_number',
    'casting',
    'release_year',
    'colour',
    'grade',
    'price_paid',
  ]);
  expect(counts).toMatchObject({ accepted: 8, rejected: 0 });
});

test('columns without headings are known by the colours that the reference names', async () => {
  const collection = await withReference();
  const list =
    'C7; Brackenhall Van; Damson; 1968\nC5; Silver Kite; Tidepool; 1970\nC6; Sluice Racer; ember; 1971\n';
  const rows = await read(collection, list, 'lot');
  expect(rows.map(([fields]) => fields)).toMatchObject([
    { casting: 'Brackenhall Van', colour: 'Damson', release_year: 1968, grade: 7 },
    { casting: 'Silver Kite', colour: 'Tidepool', release_year: 1970, grade: 5 },
    { casting: 'Sluice Racer', colour: 'Ember', release_year: 1971, grade: 6 },
  ]);
  const one = await read(collection, 'C7; Brackenhall Van; Damson; 1968\n', 'lot');
  expect(one.map(([fields]) => fields)).toMatchObject([{ casting: 'Brackenhall Van', colour: 'Damson' }]);
  // A first row of such a colour is no headings of the common colours below it.
  const first = await read(collection, 'Silver Kite; Tidepool\nSluice Racer; red\nOtterholt; blue\n', 'lot');
  expect(first.map(([fields]) => fields)).toMatchObject([
    { casting: 'Silver Kite', colour: 'Tidepool' },
    { casting: 'Sluice Racer', colour: 'red' },
    { casting: 'Otterholt', colour: 'blue' },
  ]);
});

test('a colour of two words that nobody knows is not taken for its last one', async () => {
  const rows = await read(
    await newCollection(),
    'Title,Cond\n"Dovecote Estate dairy white, hamper missing",C8\n',
    'lot',
  );
  expect(rows).toEqual([[{ casting: 'Dovecote Estate', grade: 8 }, ['dairy white', 'hamper missing']]]);
});

test('a text that counts cars of one casting first is that many of it; which of several castings is left open', async () => {
  const rows = await read(
    await withReference(),
    'What I got\nTwo Silver Kites in honeycomb\na pair of Pennyfeathers in rough shape\n4 Dovecote Estates C5 copperleaf\nThornwick Saloon with three lamps\nBrackenhall Van and a Silver Kite together',
    'lot',
  );
  expect(rows.map(([fields]) => fields)).toMatchObject([
    { casting: 'Silver Kite', colour: 'Honeycomb', quantity: 2 },
    { casting: 'Pennyfeather', quantity: 2 },
    { casting: 'Dovecote Estate', colour: 'Copperleaf', grade: 5, quantity: 4 },
    { casting: 'Thornwick Saloon', rear_end: 'three lamps' },
    {},
  ]);
  expect(rows[3]?.[0]).not.toHaveProperty('quantity');
});

describe('a text of several cars in a list of one’s own', () => {
  test('is taken as a car whose casting is open, with the text saved and asked for, and never refused', async () => {
    const collection = await withReference();
    const list =
      'what,paid\n"Silver Kite and Brackenhall Van, purple C6",$20\n"Bundle of Silver Kites, aqua",$30\n' +
      '"lot of 3 Silver Kites",$45\n"job lot of 12 cars",$9\n';
    const rows = await read(collection, list, 'lot', { map: { what: 'description' } });
    expect(rows).toEqual([
      [{ price_paid: 20, price_paid_currency: 'USD' }, ['Silver Kite and Brackenhall Van, purple C6']],
      [
        { casting: 'Silver Kite', price_paid: 30, price_paid_currency: 'USD' },
        ['Bundle of Silver Kites, aqua'],
      ],
      [{ casting: 'Silver Kite', quantity: 3, price_paid: 45, price_paid_currency: 'USD' }, []],
      [{ not: 'lot' }, []],
    ]);
    const { accepted, notUnderstood } = await take(collection, fileOf(list), {
      as: 'lot',
      map: { what: 'description' },
      lot: newLot('Loft'),
    });
    expect(accepted).toBe(3);
    expect(notUnderstood).toContainEqual(
      expect.objectContaining({ text: 'Silver Kite and Brackenhall Van, purple C6', field: 'casting' }),
    );
    const unread = collection.write.sqlite
      .prepare(
        "SELECT count(*) FROM car WHERE casting_id IS NULL AND unread LIKE '%Brackenhall Van, purple%'",
      )
      .pluck()
      .get();
    expect(unread).toBe(1);
  });
});

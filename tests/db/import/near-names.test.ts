import { expect, test } from 'vitest';
import { runAction } from '../../../db/history/history.ts';
import { partNames } from '../../../db/reference/settled-names.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { fileOf, newLot, take } from './importing.ts';

const reference =
  'maker,series,casting,year,colour,roof,accessory\nQuillon Toys,Lane,Otterholt Wagon,1968,Plum,black,canopy\n' +
  'Quillon Toys,Lane,Otterholt Wagon,1968,Ember Red,white,canopy\nQuillon Toys,Lane,Skerrow GT,1968,Lime,,\n' +
  'Quillon Toys,Lane,Mudlark Pickup,1968,Lime,,\n';

const collectionWith = async () => {
  const collection = await newCollection();
  await take(collection, fileOf(reference), { as: 'reference' });
  return collection;
};
const rowsOf = async (list: string, collection?: Awaited<ReturnType<typeof newCollection>>) =>
  (
    await take(collection ?? (await collectionWith()), fileOf(list), {
      as: 'lot',
      lot: newLot('Theirs'),
      rows: true,
      dryRun: true,
    })
  ).rows ?? [];
const castings = async (names: string[], collection?: Awaited<ReturnType<typeof newCollection>>) =>
  (await rowsOf(`Car,Cond\n${names.map(name => `${name},C7`).join('\n')}\n`, collection))
    .slice(1)
    .map(({ fields }) => fields.casting);

test('a name that is shortened or mistyped is that of the one casting, and a short word that differs is another', async () => {
  expect(
    await castings([
      'Otterholt Wgn',
      'Oterholt Wagon',
      'Mudlark P/U',
      'Skerow GT',
      'Skerrow GS',
      'Otterholt',
    ]),
  ).toEqual([
    'Otterholt Wagon',
    'Otterholt Wagon',
    'Mudlark Pickup',
    'Skerrow GT',
    'Skerrow GS',
    'Otterholt',
  ]);
});

test('a name that its owner has parted from a casting is not that casting', async () => {
  const collection = await collectionWith();
  await runAction(collection, 'Parted', at, trx => partNames(trx, 'Oterholt Wagon', ['Otterholt Wagon']));
  expect(await castings(['Oterholt Wagon', 'Skerow GT'], collection)).toEqual([
    'Oterholt Wagon',
    'Skerrow GT',
  ]);
});

test('what is written stays beside the casting, and is told', async () => {
  const [, row] = await rowsOf('Car,Cond\nOterholt Wagon,C7\n');
  expect(row?.values.casting).toBe('Oterholt Wagon');
  expect(row?.note).toContain('"Oterholt Wagon" is read as Otterholt Wagon');
});

test('lines of a maker, of a wish and of all together are no cars; words that nobody understands are one', async () => {
  const rows = await rowsOf(
    'What it is,Cond,Where it lives\nQuillon Toys,,\n"Otterholt Wagon in plum, black roof",C7,box\n' +
      '"a little tractor, no idea",C2,shoebox\nStill want: Skerrow GT in lime,,\n',
  );
  expect(rows.slice(1).map(({ outcome, not }) => [outcome, not])).toEqual([
    ['rejected', 'a sub-heading'],
    ['accepted', null],
    ['accepted', null],
    ['rejected', 'a wish'],
  ]);
  expect(rows[3]).toMatchObject({ fields: { location: 'shoebox' } });
});

test('a list without a column of colours names them among its remarks', async () => {
  const [, row] = await rowsOf(
    'Car,Details,Cond\nOtterholt Wagon,Ember Red / white roof / canopy missing,C6\n',
  );
  expect(row?.fields).toMatchObject({ colour: 'Ember Red', roof: 'white', missing_parts: 'accessory' });
});

test('without headings, names of cars beside a column of several facts are read as such', async () => {
  const rows = await rowsOf(
    'Otterholt Wgn,Plum,C8,"blk roof, with canopy",Shelf 1\nOtterholt Wgn,Ember Red,C6,"wht roof, no canopy",Shelf 2\n' +
      'Skerrow GT,Lime,C7,"nice, all there",Shelf 2\n',
  );
  expect(rows.map(({ fields }) => [fields.casting, fields.roof])).toEqual([
    ['Otterholt Wagon', 'black'],
    ['Otterholt Wagon', 'white'],
    ['Skerrow GT', undefined],
  ]);
});

test('an estimate in another currency is shown, and waits instead of being asked as a word', async () => {
  const [, row] = await rowsOf('Car,Cond,Estimate\nOtterholt Wagon,C7,"€ 1.200,00"\n');
  expect(row?.fields).toMatchObject({ own_estimate: 1200, own_estimate_currency: 'EUR' });
  const result = await take(await collectionWith(), fileOf('Car,Estimate\nOtterholt Wagon,"€ 40,00"\n'), {
    as: 'lot',
    lot: newLot('Theirs'),
  });
  expect(result.notUnderstood).toEqual([]);
});

test('a grade from C1 to C10 in a description counts where what the column of stars means is still to be said', async () => {
  const [, row] = await rowsOf('What,Stars\n"Otterholt Wagon, plum, C7",★★★\n"Skerrow GT, lime, nice",★★\n');
  expect(row?.fields.grade).toBe(7);
  expect(row?.unread).toEqual([{ column: 'Stars', text: '★★★' }]);
});

test('the box that a car comes with and the dents in it become parts of its check', async () => {
  const collection = await collectionWith();
  await take(
    collection,
    fileOf('What,Where\n"Otterholt Wagon plum C8, box C6, small dent in roof",shelf\n'),
    {
      as: 'lot',
      lot: newLot('Theirs'),
    },
  );
  const parts = await collection.read.db
    .selectFrom('part_grade')
    .select(['part', 'grade_half', 'originality', 'note'])
    .orderBy('part')
    .execute();
  expect(parts).toEqual([
    { part: 'casting metal', grade_half: null, originality: 'original', note: 'small dent in roof' },
    { part: 'packaging', grade_half: 12, originality: 'original', note: 'box' },
  ]);
});

import { expect, test } from 'vitest';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, lookAt, newLot, rejections, take } from './importing.ts';
import { rowsOf, strangersFile } from './strangers.ts';

test('a list of lines keeps its quotation marks, names no car twice, and knows what is none', async () => {
  const { rows } = await rowsOf(await newCollection(), 'strangers/loft.txt');
  const ofLine = (line: number) => rows.find(row => row.line === line);
  expect(rows.flatMap(({ line, not }) => (not === null ? [] : [[line, not]]))).toEqual([
    [1, 'a title'],
    [10, 'not a car'],
    [12, 'a total'],
  ]);
  expect(ofLine(8)).toMatchObject({ outcome: 'accepted', fields: { colour: 'yellow' } });
  expect(ofLine(9)?.fields).toEqual({ casting: 'Horse box', colour: 'brown' });
  // The year in which it was bought is not the one of its release.
  expect(ofLine(5)?.fields).toMatchObject({ casting: 'Osmerry', colour: 'silver', packaging: 'box' });
  expect(ofLine(5)?.fields).not.toHaveProperty('release_year');
});

test('an amount without a currency is asked about where others of its column name another one', async () => {
  const collection = await newCollection();
  const { rows } = await rowsOf(collection, 'strangers/marche.csv');
  const paid = rows.map(({ fields }) => fields.price_paid ?? null);
  expect(paid.slice(-4)).toEqual([12.5, null, null, null]);
  expect(rows.find(({ line }) => line === 5)?.note).toContain('"45" names no currency: say in which');
  const heading = "Prix d'achat";
  const { questions } = await lookAt(collection, strangersFile('strangers/marche.csv'), {
    as: 'lot',
    lot: newLot('Theirs'),
  });
  expect(questions).toEqual([
    { column: heading, kind: 'currency', choices: ['EUR', 'USD'], cells: 1, examples: ['45'] },
  ]);
  const lotIn = (currency: string) => ({ lot: { ...newLot('Theirs'), currency } });
  for (const [answer, currency] of [
    [{ bareCurrency: { [heading]: 'EUR' }, ...lotIn('USD') }, 'EUR'],
    [{ bareCurrency: { [heading]: 'USD' }, ...lotIn('USD') }, 'USD'],
    [lotIn('EUR'), 'EUR'],
    [{ currency: 'USD', ...lotIn('USD') }, 'USD'],
  ] as const) {
    const said = await take(collection, strangersFile('strangers/marche.csv'), {
      as: 'lot',
      dryRun: true,
      rows: true,
      ...answer,
    });
    expect(said.rows?.find(({ line }) => line === 5)?.fields).toMatchObject({
      price_paid: 45,
      price_paid_currency: currency,
    });
    expect(said.questions).toEqual([]);
  }
});

test('few amounts of another currency leave the others in the owner’s', async () => {
  const file = fileOf(
    'casting,price paid\nOsmerry,5\nMarram,8\nOsmerry,45\nPellbrook,30\nSextant,12 €\nIsobar,60 each\n',
  );
  const { rows = [] } = await take(await newCollection(), file, {
    as: 'lot',
    lot: newLot('Fairs'),
    dryRun: true,
    rows: true,
  });
  expect(rows.slice(-4).map(({ fields }) => [fields.price_paid, fields.price_paid_currency])).toEqual([
    [45, 'USD'],
    [30, 'USD'],
    [12, 'EUR'],
    [60, 'USD'],
  ]);
});

test('a sale whose price names no currency waits where others name another one, until that is said', async () => {
  const collection = await newCollection();
  const file = fileOf('date,price,casting\n2025-03-14,€12.50,Osmerry\n2025-03-15,45,Osmerry\n');
  const { rejected } = await take(collection, file, { as: 'sales', dryRun: true });
  expect(rejected).toEqual([
    {
      line: 3,
      column: 'price',
      reason: expect.stringContaining('"45" names no currency: say in which'),
    },
  ]);
  for (const answer of [{ currency: 'EUR' }, { bareCurrency: { price: 'EUR' } }]) {
    const said = await take(collection, file, { as: 'sales', dryRun: true, rows: true, ...answer });
    expect(said.rows?.at(-1)?.fields).toMatchObject({ price: 45, currency: 'EUR' });
  }
});

test('who valued a car is no estimate; an estimate from and to is in the currency that it names', async () => {
  const collection = await newCollection();
  const { columns } = await lookAt(collection, strangersFile('strangers/auction.csv'), {
    as: 'lot',
    lot: newLot('Theirs'),
  });
  expect(columns.find(({ heading }) => heading === 'Valued by')?.ours).toBeNull();
  const { rows } = await rowsOf(collection, 'strangers/auction.csv');
  const [first, second, several, last] = rows.slice(-4);
  expect(first?.fields).toMatchObject({ own_estimate: '30-50', own_estimate_currency: 'GBP' });
  expect(second?.fields).toMatchObject({ own_estimate: '10-15', own_estimate_currency: 'GBP' });
  expect(several?.not).toBe('lot');
  expect(last?.fields).toMatchObject({ own_estimate: 90, price_paid: 1150 });
});

test('the list of one auction is taken with the day and the source that are said of all of it', async () => {
  const collection = await newCollection();
  const list = fileOf(
    'Lot,Description,Hammer\n101,"Osmerry, purple",£42\n102,"Osmerry, purple",£42\n103,"Isobar, red",£12\n',
  );
  const without = await take(collection, list, { as: 'sales', dryRun: true });
  expect(rejections(without).map(([, column]) => column)).toEqual(['sold_on', 'sold_on', 'sold_on']);
  const ofAll = { soldOn: '2024-03-14', source: 'Autumn sale' };
  expect(await take(collection, list, { as: 'sales', ofAll })).toMatchObject({ accepted: 3, duplicates: 0 });
  expect(
    collection.write.sqlite
      .prepare('SELECT sold_on, source, reference, price_minor FROM sale_record ORDER BY id')
      .raw()
      .all(),
  ).toEqual([
    ['2024-03-14', 'Autumn sale', '101', 4200],
    ['2024-03-14', 'Autumn sale', '102', 4200],
    ['2024-03-14', 'Autumn sale', '103', 1200],
  ]);
  expect(await take(collection, list, { as: 'sales', ofAll })).toMatchObject({ accepted: 0, duplicates: 3 });
});

test('what rows say of day and source goes before what is said of all of them, and a day to come is refused', async () => {
  const collection = await newCollection();
  const list = fileOf('date,price,casting,source\n,45,Osmerry,\n2021-04-03,30,Isobar,fair\n');
  await take(collection, list, { as: 'sales', ofAll: { soldOn: '2024-03-14', source: 'Autumn sale' } });
  expect(
    collection.write.sqlite.prepare('SELECT sold_on, source FROM sale_record ORDER BY id').raw().all(),
  ).toEqual([
    ['2024-03-14', 'Autumn sale'],
    ['2021-04-03', 'fair'],
  ]);
  const later = await take(collection, list, { as: 'sales', ofAll: { soldOn: '2099-01-01' } });
  expect(later).toMatchObject({ accepted: 0, duplicates: 1 });
  expect(rejections(later)).toEqual([[2, 'date', '"2099-01-01" is in the future']]);
});

test('a column of lots that holds cars in words is no number of them', async () => {
  const list = fileOf(
    'Lot,Price,Date\n"Osmerry, purple, C6",45,2021-04-03\n"Isobar red, C5",30,2021-04-03\n',
  );
  const { columns } = await lookAt(await newCollection(), list, { as: 'sales' });
  expect(columns[0]?.ours).toBe('description');
});

test('amounts whose rows name their currency in a column of its own are asked nothing', async () => {
  const file = fileOf('casting,price paid,currency\nOsmerry,45,GBP\nPellbrook,€30,EUR\n');
  const { questions, rows = [] } = await take(await newCollection(), file, {
    as: 'lot',
    lot: newLot('Fairs'),
    dryRun: true,
    rows: true,
  });
  expect(questions).toEqual([]);
  expect(rows.slice(-2).map(({ fields }) => [fields.price_paid, fields.price_paid_currency])).toEqual([
    [45, 'GBP'],
    [30, 'EUR'],
  ]);
});

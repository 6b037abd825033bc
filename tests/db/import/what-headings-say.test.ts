import { expect, test } from 'vitest';
import { currenciesOfHeading } from '../../../valuation/reading/currency.ts';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, lookAt, newLot, take } from './importing.ts';
import { rowsOf, strangersFile } from './strangers.ts';

const fieldsOf = async (name: string) => {
  const { rows } = await rowsOf(await newCollection(), `strangers/${name}`);
  return rows.filter(({ outcome }) => outcome !== 'rejected').map(({ fields }) => fields);
};
const columnsOf = async (name: string) => {
  const file = strangersFile(`strangers/${name}`);
  const { columns } = await lookAt(await newCollection(), file, { as: 'lot', lot: newLot('Theirs') });
  return Object.fromEntries(columns.map(({ heading, ours }) => [heading, ours]));
};

test('a heading names a currency as people write it, and no other word is one', () => {
  const named = (heading: string, own = 'USD' as const) => currenciesOfHeading(heading, own);
  expect(
    ['Paid EUR', 'paid eur', 'Price (£)', '€ paid', 'Cost in pounds', 'Preis in Euro', 'US$', 'PAID GBP'].map(
      heading => named(heading),
    ),
  ).toEqual([['EUR'], ['EUR'], ['GBP'], ['EUR'], ['GBP'], ['EUR'], ['USD'], ['GBP']]);
  expect(named('Price ($)')).toEqual(['USD']);
  expect(currenciesOfHeading('Price ($)', 'CAD')).toEqual(['CAD']);
  expect(named('Cost ZAR')).toEqual(['ZAR']);
  for (const none of ['Paid', 'PRICE EACH', 'COST ALL', 'Top price', 'Length ft', 'Price, fr. Tom', 'Try it'])
    expect(named(none)).toEqual([]);
  expect(named('Pris (kr)')).toEqual(['SEK', 'NOK', 'DKK', 'ISK']);
  expect(currenciesOfHeading('Pris (kr)', 'NOK')).toEqual(['NOK']);
  expect(named('Paid £/€')).toEqual(['GBP', 'EUR']);
});

test('amounts are in the currency of their heading, estimates too, and it is said so', async () => {
  const [first, second] = await fieldsOf('part-marks.csv');
  expect(first).toMatchObject({
    price_paid: 22.5,
    price_paid_currency: 'EUR',
    own_estimate: '45-60',
    own_estimate_currency: 'EUR',
  });
  expect(second).toMatchObject({ price_paid: 8, price_paid_currency: 'EUR' });
  const { learned } = await rowsOf(await newCollection(), 'strangers/part-marks.csv');
  expect(learned).toContainEqual(
    expect.objectContaining({ column: 'Paid EUR', kind: 'currency', value: 'EUR', from: 'its heading' }),
  );
});

test('a heading goes before the currency of all amounts, an answer for its column before the heading', async () => {
  const list = 'Car,Paid (£)\nOsmerry,12\nIsobar,$8\n';
  const paidWith = async (options: Partial<Parameters<typeof take>[2]>) => {
    const { rows = [] } = await take(await newCollection(), fileOf(list), {
      as: 'lot',
      lot: newLot('Fair'),
      dryRun: true,
      rows: true,
      ...options,
    });
    return rows.slice(-2).map(({ fields }) => fields.price_paid_currency);
  };
  expect(await paidWith({})).toEqual(['GBP', 'USD']);
  expect(await paidWith({ currency: 'EUR', bareCurrency: { '*': 'EUR' } })).toEqual(['GBP', 'USD']);
  expect(await paidWith({ bareCurrency: { 'Paid (£)': 'CAD' } })).toEqual(['CAD', 'USD']);
});

test('under a heading of several currencies bare amounts wait, and each is offered', async () => {
  const collection = await newCollection();
  const list = fileOf('sold on,pris (kr),casting\n2025-03-14,120,Osmerry\n');
  const { questions, rejected } = await take(collection, list, { as: 'sales', dryRun: true });
  expect(questions).toEqual([
    {
      column: 'pris (kr)',
      kind: 'currency',
      choices: ['SEK', 'NOK', 'DKK', 'ISK', 'USD'],
      cells: 1,
      examples: ['120'],
    },
  ]);
  expect(rejected).toMatchObject([{ reason: expect.stringContaining('"120" names no currency') }]);
  const answers = [{ currency: 'NOK' }, { bareCurrency: { 'pris (kr)': 'NOK' } }] as const;
  for (const answer of answers) {
    const said = await take(collection, list, { as: 'sales', dryRun: true, rows: true, ...answer });
    expect(said.rows?.at(-1)?.fields).toMatchObject({ price: 120, currency: 'NOK' });
  }
  const two = fileOf('sold on,price £/€,casting\n2025-03-14,120,Osmerry\n');
  const said = await take(collection, two, { as: 'sales', dryRun: true, rows: true, currency: 'EUR' });
  expect(said.rows?.at(-1)?.fields).toMatchObject({ price: 120, currency: 'EUR' });
});

test('marks out of ten under the names of parts are their states, and no kinds of them', async () => {
  const { rows } = await rowsOf(await newCollection(), 'strangers/part-marks.csv');
  const [first, second, third] = rows.filter(({ outcome }) => outcome !== 'rejected');
  expect(first?.fields).toMatchObject({
    body_state: '8',
    roof_state: '9',
    base_state: '9',
    glazing_state: '8',
    interior_state: '9',
    wheels_state: '7',
  });
  for (const feature of ['roof', 'interior', 'glazing', 'wheels', 'base_paint'])
    expect(first?.fields).not.toHaveProperty(feature);
  expect(second?.fields).toMatchObject({ glazing_state: 'missing', wheels_state: '4 (2 flat)' });
  expect(third?.fields).toMatchObject({ wheels_state: 'repro' });
});

test('figures under the name of a part that may count something, or be of another scale, are left as written', async () => {
  const collection = await newCollection();
  const list = fileOf('Car,Wheels,Roof,Interior\nOsmerry,4,3,tan\nIsobar,3,5,black\nMarram,4,2,7\n');
  const { rows = [] } = await take(collection, list, {
    as: 'lot',
    lot: newLot('Fair'),
    dryRun: true,
    rows: true,
  });
  expect(rows.slice(-3).map(({ fields }) => fields)).toEqual([
    { casting: 'Osmerry', interior: 'tan' },
    { casting: 'Isobar', interior: 'black' },
    { casting: 'Marram' },
  ]);
  expect(rows.at(-1)?.unread.map(({ column, text }) => `${column}: ${text}`)).toEqual([
    'Roof: 2',
    'Interior: 7',
    'Wheels: 4',
  ]);
});

test('a box that a list answers with yes and no is what a car came in, not where it is', async () => {
  for (const [name, heading] of [
    ['spanish.csv', 'Caja'],
    ['dutch.csv', 'Doos'],
  ] as const)
    expect((await columnsOf(name))[heading]).toBe('packaging');
  expect((await fieldsOf('spanish.csv')).map(({ packaging }) => packaging)).toEqual([
    'Sí',
    undefined,
    'con caja original',
    undefined,
    undefined,
    undefined,
  ]);
  const boxes = fileOf('Casting,Box\nOsmerry,Blue 1\nIsobar,Blue 2\n');
  const { columns } = await lookAt(await newCollection(), boxes, { as: 'lot', lot: newLot('Attic') });
  expect(columns[1]?.ours).toBe('location');
});

test('what is missing is read in the words of other languages', async () => {
  expect((await fieldsOf('spanish.csv'))[1]?.missing_parts).toBe('glazing');
  expect((await fieldsOf('dutch.csv'))[1]?.missing_parts).toBe('glazing');
  const { notUnderstood } = await rowsOf(await newCollection(), 'strangers/dutch.csv');
  expect(notUnderstood.map(({ text }) => text)).not.toContain('niets');
});

test('a museum’s and a dealer’s columns are what they are', async () => {
  expect(await columnsOf('accessions.csv')).toMatchObject({
    Accession: 'inventory_number',
    Object: 'description',
    'Date made': 'release_year',
    'Acquired by': null,
    'Credit line': null,
    'Insurance value': null,
  });
  expect(await columnsOf('stock-book.csv')).toMatchObject({
    'Stock No': 'inventory_number',
    Bin: 'location',
    Rcvd: 'bought_on',
    'Came from': 'seller',
  });
  const { questions } = await rowsOf(await newCollection(), 'strangers/stock-book.csv');
  expect(questions).toContainEqual(expect.objectContaining({ column: 'Cost ea', choices: ['GBP', 'USD'] }));
});

test('what a car brought is not what it cost', async () => {
  const lines = fileOf(
    [
      'Vanewright red, sold to Pete for £28, was C6',
      'Isobar red, sold, paid £28',
      'Sextant red sold to me for £9',
      'Marram red £4',
      'WTB Osmerry green, will pay £30',
    ].join('\n'),
    'cars.txt',
  );
  const { rows = [] } = await take(await newCollection(), lines, {
    as: 'lot',
    lot: newLot('Notes'),
    dryRun: true,
    rows: true,
  });
  expect(rows.map(({ fields }) => [fields.sold_for, fields.price_paid])).toEqual([
    [28, undefined],
    [undefined, undefined],
    [undefined, 9],
    [undefined, 4],
    [undefined, undefined],
  ]);
  expect(rows.at(-1)).toMatchObject({ outcome: 'rejected', not: 'a wish' });
  expect(rows[1]?.note).toContain('is what it cost or what it brought is not said');
});

test('a reference list by a stranger names what is new, and several values in a cell are none of one variation', async () => {
  const list = fileOf(
    [
      'Cast no.,Name,Years,Colours,Interior,Wheels',
      '103,Foxglove Estate,1970,Greengage,tan,wire',
      '104,Foxglove Van (as 103),1970,various,ivory or black,"wire, later dished"',
    ].join('\n'),
  );
  const result = await take(await newCollection(), list, { as: 'reference', dryRun: true, rows: true });
  expect(result.rows?.slice(-2).map(({ fields }) => fields)).toEqual([
    { casting: 'Foxglove Estate', release_year: 1970, colour: 'Greengage', interior: 'tan', wheels: 'wire' },
    { casting: 'Foxglove Van (as 103)', release_year: 1970 },
  ]);
  expect(result.rows?.at(-1)?.unread.map(({ text }) => text)).toEqual([
    'various',
    'ivory or black',
    'wire, later dished',
  ]);
});

test('what is missing under the name of a part is proposed as that part', async () => {
  const { notUnderstood } = await rowsOf(await newCollection(), 'strangers/part-marks.csv');
  expect(notUnderstood.find(({ text }) => text === 'hamper missing')).toMatchObject({
    field: 'missing_parts',
    meaning: 'accessory',
  });
});

test('a heading that is a currency alone is the amount of the one before it', async () => {
  expect(await columnsOf('signs-alone.csv')).toMatchObject({
    Bought: 'bought_on',
    '£': 'price_paid',
    Sold: 'sold_on',
    '£ (2)': 'sold_for',
    Colourway: 'colour',
  });
  const [first, second, third] = await fieldsOf('signs-alone.csv');
  expect(first).toMatchObject({ price_paid: 12.5, price_paid_currency: 'GBP' });
  expect(second).toMatchObject({ sold_on: '2023-07-14', sold_for: 22 });
  // What was paid for two cars together is not what this one cost.
  expect(third).not.toHaveProperty('price_paid');
});

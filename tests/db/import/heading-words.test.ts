import { expect, test } from 'vitest';
import { openTable } from '../../../db/import/files/table.ts';
import { isOfNames, meaningsByWords } from '../../../db/import/heading-words.ts';
import { mapColumns } from '../../../db/import/mapping.ts';
import type { ImportKind, ImportOptions } from '../../../db/import/types.ts';
import { fileOf } from './importing.ts';

test.each<[ImportKind, string, string[]]>([
  ['lot', 'What I had to pay', ['price_paid']],
  ['lot', 'Kosten damals', ['price_paid']],
  ['lot', 'Who I got it from', ['seller']],
  ['lot', 'Acquired from', ['seller']],
  ['lot', 'Day I bought it', ['bought_on']],
  ['lot', 'bought', ['bought_on', 'price_paid', 'seller']],
  ['lot', 'sold at', ['sold_on', 'sold_for']],
  ['lot', 'Price when sold', ['sold_for']],
  ['lot', 'Couleur de la carrosserie', ['colour']],
  ['lot', 'Seat colour', ['interior']],
  ['lot', 'Farbe der Räder', ['wheels']],
  ['lot', 'How good is it?', ['grade']],
  ['lot', 'Which drawer', ['location']],
  ['lot', 'Anything else to say', ['notes']],
  ['lot', 'My guess of its value', ['own_estimate']],
  ['sales', 'Price it made', ['price']],
  ['sales', 'Which day', ['sold_on']],
  // Of something that no column holds, or of a part.
  ['lot', 'Cost of postage', []],
  ['lot', 'Asking price', []],
  ['lot', 'Book value', []],
  ['lot', 'Condition of the wheels', []],
  ['lot', 'Hours of restoration', []],
  ['sales', 'Estimate', []],
  ['reference', 'What I paid', []],
  ['reference', 'How many', []],
  ['lot', 'Blorb', []],
])('%s: "%s" may mean %j', (as, heading, meanings) => {
  expect(meaningsByWords(as, heading)).toEqual(meanings);
});

/** What each heading of a list is taken for. */
const readAs = async (csv: string): Promise<Record<string, string>> => {
  const options: ImportOptions = { as: 'lot', map: {}, decimal: {}, dateOrder: {} };
  const file = fileOf(csv);
  const { headings, ...table } = await openTable(file, file.name, options);
  const { places } = mapColumns({ headings, ...table }, options, false);
  return Object.fromEntries([...places].map(([ours, at]) => [headings[at] ?? '', ours]));
};

test('words of a heading are held against the cells below it', async () => {
  expect(await readAs('Car,Sold at,Sold price\nVan,2025-01-15,110.00\nKite,2025-02-01,9.50')).toEqual({
    Car: 'casting',
    'Sold at': 'sold_on',
    'Sold price': 'sold_for',
  });
  // "What I paid with" is no price where its cells are words.
  expect(await readAs('Car,Grade,What I paid with\nVan,C5,a cheque\nKite,C6,cash')).toEqual({
    Car: 'casting',
    Grade: 'grade',
  });
  // A heading that we know keeps its column.
  expect(await readAs('Car,Price,Money that I paid\nVan,3.00,4.00')).toEqual({
    Car: 'casting',
    Price: 'price_paid',
  });
});

test('somebody else’s "cost" beside its currency is what was paid; in our own export it is not', async () => {
  const cells = '1,Van,3.00,EUR,2024-01-02';
  expect(await readAs(`id,model,cost,cost_currency,acquired_at\n${cells}`)).toMatchObject({
    cost: 'price_paid',
    acquired_at: 'bought_on',
  });
  expect(await readAs(`inventory_number,casting,cost,cost_currency,acquired_on\n${cells}`)).toEqual({
    inventory_number: 'inventory_number',
    casting: 'casting',
  });
});

test('headings as they are shortened and asked are known', async () => {
  expect(await readAs('Car,Pd,Base painted?\nQuern Wagon,$15,front\nLongspur,$9,none\n')).toEqual({
    Car: 'casting',
    Pd: 'price_paid',
    'Base painted?': 'base_paint',
  });
});

test('an owner’s reference is a number of cars where no two are alike, and "Loc" is where they are kept', async () => {
  expect(await readAs('Ref,Car,Loc\nA1,Quern Wagon,tin 2\nA2,Longspur,tin 3\n')).toEqual({
    Ref: 'inventory_number',
    Car: 'casting',
    Loc: 'location',
  });
  expect(await readAs('Ref,Car\n237,Quern Wagon\n237,Quern Wagon\n')).toEqual({ Car: 'casting' });
});

test.each([
  ['Car', true],
  ['Model name', true],
  ['Voiture', true],
  ['Item', false],
  ['Description', false],
  ['Car bought on', false],
])('"%s" is a heading of names and of nothing else: %s', (heading, isOne) => {
  expect(isOfNames(heading)).toBe(isOne);
});

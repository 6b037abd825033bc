import { expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';

type Wanted = Parameters<Api['exports']['make']>[0];

const out = async (api: Api, wanted: Omit<Wanted, 'format'>) => {
  const made = await resultOf(await api.exports.make({ ...wanted, format: 'csv' }));
  const file = await api.reports.file(made);
  const [heads = [], ...rows] = readRfc4180(await file.text());
  const column = (name: string) => rows.map(row => row[heads.indexOf(name)]);
  return { made, heads, rows, column, file: new File([await file.arrayBuffer()], 'list.csv') };
};

const lots = [
  { name: 'Loft', boughtOn: '2026-01-02' as const, seller: 'Anna', currency: 'USD', notes: 'two\nlines' },
  { name: 'Attic', currency: 'JPY' },
  { name: 'Seen', currency: 'USD' },
];
const costs = [
  { kind: 'price' as const, minor: 4000, note: '' },
  { kind: 'carriage' as const, minor: 1250, note: 'by van' },
];

const shelf = async () => {
  const { api } = await newCollectionService();
  const { variations } = await addReference(api);
  const ids: number[] = [];
  for (const lot of lots)
    ids.push((await api.lots.create({ ...lot, costs: lot.name === 'Seen' ? [] : costs })).id);
  const { ids: cars } = await api.cars.create({
    lotId: ids[0]!,
    cars: [
      { inventoryNumber: 'L-2', variationId: variations.emberTwin, grade: 3, finishState: 'restored' },
      { inventoryNumber: 'L-10', variationId: variations.mossTwin, grade: 7.5 },
    ],
  });
  return { api, variations, lots: ids, cars };
};

it('lots go out as they stand on the screen, and come back with their costs', async () => {
  const { api, lots: ids } = await shelf();
  const shown = await out(api, { list: 'lots', shown: { ids: [ids[2]!, ids[0]!, 999] } });
  expect(shown.made.rows).toBe(2);
  expect(shown.column('lot')).toEqual(['Seen', 'Loft']);
  expect(shown.heads.slice(0, 13)).toEqual([
    ...['lot', 'seller', 'bought_on', 'total', 'currency', 'cars', 'identified', 'graded', 'photographed'],
    ...['value_currency', 'value_as_found', 'valued', 'sold'],
  ]);
  expect(shown.rows[1]!.slice(0, 9)).toEqual([
    'Loft',
    'Anna',
    '2026-01-02',
    '52.50',
    'USD',
    '2',
    '2',
    '2',
    '0',
  ]);
  const { api: other } = await newCollectionService();
  const taken = await resultOf(await other.imports.ledger({ file: shown.file, as: 'lots' }));
  expect([taken.accepted, taken.rejected, taken.notes]).toEqual([2, [], []]);
  const whole = async (one: Api) => (await out(one, { list: 'lots' })).rows.map(row => row.join('|'));
  const before = (await whole(api)).filter(row => !row.startsWith('Attic'));
  // Its cars come with their own list.
  expect((await whole(other)).sort()).toEqual(before.map(row => row.replace('|2|USD|', '|0|USD|')).sort());
});

it('castings go out as they are listed, and variations as a casting’s page shows them', async () => {
  const { api, variations } = await shelf();
  const castings = (await api.reference.castings()).toReversed();
  const listed = await out(api, { list: 'reference', shown: { ids: castings.map(({ id }) => id) } });
  expect(listed.column('casting')).toEqual(castings.map(({ name }) => name));
  expect(listed.column('cars_owned')).toEqual(castings.map(({ cars }) => String(cars)));
  const ids = [variations.mossTwin, variations.emberTwin];
  const page = await out(api, { list: 'reference', shown: { ids, of: 'variations' } });
  expect(page.heads.slice(0, 5)).toEqual(['casting', 'colour', 'rarity', 'cars_owned', 'sale_records']);
  expect(page.column('colour')).toEqual(['Moss', 'Ember']);
  expect(page.column('cars_owned')).toEqual(['1', '1']);

  const { api: other } = await newCollectionService();
  for (const { file } of [listed, page])
    expect((await resultOf(await other.imports.run({ file, as: 'reference' }))).rejected).toEqual([]);
  const again = await other.reference.castings();
  expect(again.map(({ name, maker, series }) => `${maker} ${series} ${name}`).sort()).toEqual(
    castings.map(({ name, maker, series }) => `${maker} ${series} ${name}`).sort(),
  );
  const whole = await out(other, { list: 'reference' });
  const here = await out(api, { list: 'reference' });
  const row = (from: typeof whole, colour: string) =>
    from.rows.find((_, i) => from.column('colour')[i] === colour)?.slice(0, 16);
  expect(row(whole, 'Moss')).toEqual(row(here, 'Moss'));
});

it('of a list about cars what belongs to the cars shown goes out, car by car in their order', async () => {
  const { api, cars } = await shelf();
  const spent = { spentOn: '2026-03-04' as const, minor: 100, currency: 'USD' };
  for (const [at, what] of [
    [0, 'felts'],
    [1, 'glass'],
    [0, 'wax'],
  ] as const)
    await api.cars.addExpense({ carId: cars[at]!, what, ...spent });
  const page = await api.cars.get({ id: cars[0]! });
  const ofOne = await out(api, { list: 'expenses', shown: { ids: page.expenses.map(({ id }) => id) } });
  expect(ofOne.column('what')).toEqual(page.expenses.map(({ what }) => what));
  const about = (query: string) =>
    out(api, { list: 'expenses', ofCars: { query, locale: 'en-US' } }).then(({ column }) => column('what'));
  expect(await about('sort=-number')).toEqual(['glass', 'wax', 'felts']);
  expect(await about('finish=restored')).toEqual(['wax', 'felts']);
  const refused = await refusalOf(
    api.exports
      .make({ list: 'lots', format: 'csv', ofCars: { query: '', locale: 'en-US' } })
      .then(work => resultOf(work)),
  );
  expect(refused.message).toMatch(/says nothing of single cars/);
});

it('jobs go out in the order of the bench, each with its steps', async () => {
  const { api, cars } = await shelf();
  await api.bench.add({ cars: cars.map(carId => ({ carId })) });
  const jobs = (await api.bench.list()).toReversed();
  const shown = await out(api, { list: 'jobs', shown: { ids: jobs.map(({ id }) => id) } });
  expect([...new Set(shown.column('inventory_number'))]).toEqual(jobs.map(job => job.inventoryNumber));
  expect((await out(api, { list: 'jobs', shown: { ids: [jobs[1]!.id] } })).rows).toHaveLength(
    jobs[1]!.steps.length,
  );
});

it('cars that were sold go out as they are listed, with what each brought and gained, and come back', async () => {
  const { api, cars } = await shelf();
  const sale = { buyer: 'A. Fenn', venue: 'fair', notes: '' };
  const [first, second] = cars as [number, number];
  await api.cars.addExpense({
    carId: first,
    spentOn: '2026-01-05',
    what: 'wax',
    minor: 150,
    currency: 'USD',
  });
  const spent = (await api.cars.get({ id: first })).cost! + 150;
  const sold = { proceeds: 4000, fees: 250, currency: 'USD' };
  await api.cars.dispose({ carId: first, soldOn: '2026-02-01', ...sold, ...sale });
  await api.cars.dispose({
    carId: second,
    soldOn: '2026-03-01',
    proceeds: 900,
    fees: 0,
    currency: 'EUR',
    ...sale,
  });
  const { ids } = await api.cars.create({ lotId: null, cars: [{ inventoryNumber: 'X-1' }] });
  await api.cars.update({ changes: [{ id: ids[0]!, patch: { status: 'sold' } }] });
  const { rows, unrecorded } = await api.cars.sold();
  expect(unrecorded).toEqual(['X-1']);
  expect(rows.map(row => [row.inventoryNumber, row.gain, row.finishState])).toEqual([
    // What it cost is in dollars.
    ['L-10', null, 'original'],
    ['L-2', 4000 - 250 - spent, 'restored'],
  ]);
  const shown = await out(api, { list: 'disposals', shown: { ids: [rows[1]!.id, 999, rows[0]!.id] } });
  expect(shown.column('inventory_number')).toEqual(['L-2', 'L-10']);
  expect(shown.column('sold_for')).toEqual(['40.00', '9.00']);
  const taken = await resultOf(await api.imports.ledger({ file: shown.file, as: 'disposals' }));
  expect(taken).toMatchObject({ accepted: 0, duplicates: 2, rejected: [] });
});

import { expect, it } from 'vitest';
import type { ExportedList } from '../../../../electron/api/exports/exports.ts';
import { addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';

const shelf = async () => {
  const { api } = await newCollectionService();
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD', costs: [] });
  await api.cars.create({
    lotId,
    cars: [
      { inventoryNumber: 'L-2', variationId: variations.emberTwin, grade: 3, finishState: 'restored' },
      { inventoryNumber: 'L-10', variationId: variations.mossTwin, grade: 7.5 },
    ],
  });
  await api.cars.create({ lotId: null, cars: [{ inventoryNumber: 'X-1', grade: 9 }] });
  const out = async (list: ExportedList, query?: string) => {
    const seen = query === undefined ? undefined : { query, locale: 'en-US' };
    const made = await resultOf(await api.exports.make({ list, format: 'csv', ...(seen && { seen }) }));
    const file = await api.reports.file(made);
    return { made, rows: readRfc4180(await file.text()) };
  };
  return { api, variations, lotId, out };
};

it('a list of cars goes out as it is seen: filter, order and columns', async () => {
  const { lotId, out } = await shelf();
  const { made, rows } = await out('cars', `lot=${lotId}&sort=-grade&columns=grade,lot,colour`);
  expect(made.rows).toBe(2);
  expect(rows).toEqual([
    ['inventory_number', 'grade', 'lot', 'colour', 'worn_colour', 'finish_state'],
    ['L-10', '7.5', 'Loft', 'Moss', '', 'original'],
    ['L-2', '3', 'Loft', 'Ember', '', 'restored'],
  ]);
});

it('a list of cars without a choice of columns has what the list shows, and the whole one has more', async () => {
  const { out } = await shelf();
  const [seen = []] = (await out('cars', 'sort=number')).rows;
  const { rows } = await out('cars', 'sort=number');
  const [whole = []] = (await out('cars')).rows;
  expect(seen).toEqual(expect.arrayContaining(['casting', 'as_found_mid', 'recommended', 'expected_gain']));
  expect(seen).not.toContain('notes');
  expect(whole).toEqual(expect.arrayContaining(['notes', 'wheels']));
  expect(rows.slice(1).map(row => row[0])).toEqual(['L-2', 'L-10', 'X-1']);
  expect((await out('cars', 'grade=1-2')).rows).toHaveLength(1);
});

it('an order by a column that is not shown is not the one that is seen', async () => {
  const { out } = await shelf();
  const numbers = async (query: string) => (await out('cars', query)).rows.slice(1).map(row => row[0]);
  expect(await numbers('sort=-grade&columns=grade')).toEqual(['X-1', 'L-10', 'L-2']);
  expect(await numbers('sort=-grade&columns=lot')).toEqual(await numbers('columns=lot'));
});

it('a list of sale records goes out as it is seen, its finish state always with it', async () => {
  const { api, variations, out } = await shelf();
  const sale = { variationId: variations.emberTwin, currency: 'USD' };
  const { castingId } = (await api.cars.list({})).find(car => car.inventoryNumber === 'L-2')!;
  for (const [price, soldOn, source] of [
    [900, '2025-01-02', 'fair'],
    [1200, '2025-03-04', 'auction'],
    [700, '2025-02-03', 'fair'],
  ] as const)
    await api.sales.create({ ...sale, castingId: castingId!, price, soldOn, source });
  const { rows } = await out('sales', 'source=fair&sort=price&columns=price');
  expect(rows).toEqual([
    ['sold_on', 'price', 'currency', 'finish_state'],
    ['2025-02-03', '7.00', 'USD', 'original'],
    ['2025-01-02', '9.00', 'USD', 'original'],
  ]);
  // As the list begins: the newest first.
  const days = (await out('sales', '')).rows.slice(1).map(row => row[0]!);
  expect(days.length).toBeGreaterThan(3);
  expect(days).toEqual(days.toSorted().toReversed());
});

it('an empty collection gives the headings that are seen, and other lists go out whole', async () => {
  const { api } = await newCollectionService();
  const seen = { query: 'columns=grade', locale: 'en-US' };
  const made = await resultOf(await api.exports.make({ list: 'cars', format: 'csv', seen }));
  expect(readRfc4180(await (await api.reports.file(made)).text())).toEqual([
    ['inventory_number', 'grade', 'finish_state'],
  ]);
  const refused = await refusalOf(
    api.exports.make({ list: 'words', format: 'csv', seen }).then(work => resultOf(work)),
  );
  expect(refused.message).toMatch(/goes out whole/);
});

it('the list of Decide goes out as it is seen, with what was decided as the list of decisions has it', async () => {
  const { api, lotId, out } = await shelf();
  const cars = await api.cars.list({ lotId });
  const { id: carId } = cars.find(car => car.inventoryNumber === 'L-10')!;
  await api.decisions.recordAll({ decisions: [{ carId, choice: 'donor', reason: 'bent' }] });
  const byNumber = async (query: string) => {
    const [heads = [], ...rows] = (await out('decisions', query)).rows;
    return rows.map(row => Object.fromEntries(heads.map((head, i) => [head, row[i]])));
  };
  const shown = await byNumber(`lot=${lotId}&sort=-grade`);
  expect(
    shown.map(row => [row['inventory_number'], row['finish_state'], row['choice'], row['reason']]),
  ).toEqual([
    ['L-10', 'original', 'donor', 'bent'],
    ['L-2', 'restored', '', ''],
  ]);
  const [first] = (await api.decisions.list({ lotId })).filter(({ car }) => car.id === carId);
  expect(shown[0]).toMatchObject({ recommended_now: first!.car.recommendation, currency: 'USD' });
  expect((await byNumber('decided=undecided')).map(row => row['inventory_number']).sort()).toEqual([
    'L-2',
    'X-1',
  ]);
  expect(await byNumber('')).toHaveLength(3);
  expect((await out('decisions')).rows.slice(1).map(row => row[0])).toEqual(['L-10']);
});

import { describe, expect, it } from 'vitest';
import { type Api, newCollectionService, resultOf } from '../../../helpers/api.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';
import { canReadPdf, pdfText, squeezed } from '../../../reports/read-pdf.ts';

/**
 * Some purchases, spending and sales in five currencies, worked out by hand for the year 2025 in USD. Rates: EUR
 * 1.10 from January 1 and 1.20 from June 1, GBP 1.25 from March 1, JPY 0.007 from January 1; none of CAD.
 */
const shelf = async () => {
  const { api } = await newCollectionService();
  for (const [currency, on, rate] of [
    ['EUR', '2025-01-01', '1.1'],
    ['EUR', '2025-06-01', '1.2'],
    ['GBP', '2025-03-01', '1.25'],
    ['JPY', '2025-01-01', '0.007'],
  ] as const)
    await api.collection.saveRate({ currency, on, rate });
  const lot = async (
    name: string,
    currency: string,
    boughtOn: string | null,
    paid: [kind: 'price' | 'premium' | 'carriage', minor: number][],
    numbers: string[],
  ) => {
    const costs = paid.map(([kind, minor]) => ({ kind, minor, note: '' }));
    const { id } = await api.lots.create({ name, currency, boughtOn, costs, seller: 'Tarrow' });
    const cars = numbers.map(inventoryNumber => ({ inventoryNumber }));
    const { ids } = cars.length ? await api.cars.create({ lotId: id, cars }) : { ids: [] };
    return { id, ids };
  };
  // 100 + 20 + 5 = EUR 125.00, × 1.10 = 137.50.
  const tin = await lot(
    'Tin',
    'EUR',
    '2025-02-10',
    [
      ['price', 10_000],
      ['premium', 2000],
      ['carriage', 500],
    ],
    ['A-1', 'A-2'],
  );
  await api.lots.shareCost({ id: tin.id, fixed: [{ carId: tin.ids[0]!, minor: 7500 }] });
  // GBP 40.00 of it for a car that was bought alone, × 1.25 = 50.00; GBP 8.00 on no known day.
  const singles = await lot('Singles', 'GBP', null, [['price', 4800]], ['B-1', 'B-2']);
  await api.lots.shareCost({ id: singles.id, fixed: [{ carId: singles.ids[0]!, minor: 4000 }] });
  await api.cars.update({
    changes: [{ id: singles.ids[0]!, patch: { boughtOn: '2025-04-05', seller: 'Moss' } }],
  });
  // JPY has no decimals: 10,000 × 0.007 = 70.00.
  await lot('Parcel', 'JPY', '2025-05-01', [['price', 10_000]], []);
  await lot('Fair', 'CAD', '2025-07-01', [['price', 3000]], []);
  await lot('Year before', 'USD', '2024-12-31', [['price', 1000]], []);
  const [first, alone] = [tin.ids[0]!, singles.ids[0]!];
  // × 1.20 = 12.00.
  const spend = { carId: first, spentOn: '2025-06-15', what: 'wheels', minor: 1000, currency: 'EUR' };
  await api.cars.addExpense(spend);
  await api.cars.addExpense({ ...spend, carId: alone, spentOn: '2025-07-02', minor: 300, currency: 'CAD' });
  // 180.00 after fees, × 1.20 = 216.00; less 75.00 × 1.10 = 82.50 and 12.00: 121.50.
  const sale = { carId: first, soldOn: '2025-08-01', proceeds: 20_000, fees: 2000, currency: 'EUR' };
  await api.cars.dispose(sale);
  // What was spent on it has no rate, so what was realised is not known.
  await api.cars.dispose({ ...sale, carId: alone, proceeds: 6000, fees: 0, currency: 'USD' });
  return api;
};

const fileOf = async (api: Api, wanted: Omit<Parameters<Api['papers']['make']>[0], 'kind'>) => {
  const { token } = await resultOf(await api.papers.make({ kind: 'ledger', ...wanted }));
  return Buffer.from(await (await api.reports.file({ token })).arrayBuffer());
};

const year = { from: '2025-01-01', to: '2025-12-31' };

describe('the ledger of a year', () => {
  it('has as a table every entry on its day, with the rate, its day and where it is from', async () => {
    const rows = readRfc4180((await fileOf(await shelf(), { ...year, format: 'csv' })).toString('utf8'));
    const [head, ...lines] = rows;
    expect(head?.map(name => name.replace('\ufeff', ''))).toEqual([
      'date',
      'kind',
      'what',
      'amount',
      'currency',
      'rate',
      'rate_date',
      'rate_source',
      'reported',
      'realised',
      'reporting_currency',
      'note',
    ]);
    const own = 'entered by the owner';
    const note = 'a record, not tax advice';
    const noRate = `no rate for the day: in no total; ${note}`;
    expect(lines.map(line => line.filter((_, i) => i !== 10))).toEqual([
      [
        '2025-02-10',
        'bought',
        'Tin, from Tarrow',
        '125.00',
        'EUR',
        '1.1',
        '2025-01-01',
        own,
        '137.50',
        '',
        note,
      ],
      [
        '2025-04-05',
        'bought',
        'B-1, of Singles, from Moss',
        '40.00',
        'GBP',
        '1.25',
        '2025-03-01',
        own,
        '50.00',
        '',
        note,
      ],
      [
        '2025-05-01',
        'bought',
        'Parcel, from Tarrow',
        '10000',
        'JPY',
        '0.007',
        '2025-01-01',
        own,
        '70.00',
        '',
        note,
      ],
      ['2025-06-15', 'spent', 'A-1: wheels', '10.00', 'EUR', '1.2', '2025-06-01', own, '12.00', '', note],
      ['2025-07-01', 'bought', 'Fair, from Tarrow', '30.00', 'CAD', '', '', '', '', '', noRate],
      ['2025-07-02', 'spent', 'B-1: wheels', '3.00', 'CAD', '', '', '', '', '', noRate],
      ['2025-08-01', 'sold', 'A-1', '180.00', 'EUR', '1.2', '2025-06-01', own, '216.00', '121.50', note],
      [
        '2025-08-01',
        'sold',
        'B-1',
        '60.00',
        'USD',
        '',
        '',
        '',
        '60.00',
        '',
        `what was realized is not known; ${note}`,
      ],
    ]);
  });

  it('begins where the tax year begins', async () => {
    const api = await shelf();
    const csv = await fileOf(api, { from: '2025-04-06', format: 'csv' });
    const kinds = readRfc4180(csv.toString('utf8'))
      .slice(1)
      .map(row => row[2]);
    expect(kinds).not.toContain('B-1, of Singles, from Moss');
    expect(kinds).toHaveLength(6);
    const before = await fileOf(api, { from: '2024-04-06', format: 'csv' });
    expect(
      readRfc4180(before.toString('utf8'))
        .slice(1)
        .map(row => row[2]),
    ).toEqual(['Year before, from Tarrow', 'Tin, from Tarrow', 'B-1, of Singles, from Moss']);
  });

  it.skipIf(!canReadPdf)('says on paper the sums, the rates, and what stands in no sum or year', async () => {
    const text = squeezed(await pdfText(await fileOf(await shelf(), year)));
    const has = (said: string) => expect(text).toContain(squeezed(said));
    has('Bought USD 257.50');
    has('Spent on cars USD 12.00');
    has('Sold, after fees USD 276.00');
    has('4 entries 257.50');
    has('2 entries 276.00 +121.50');
    for (const rate of [
      'EUR 1.1 Jan 1, 2025',
      'EUR 1.2 Jun 1, 2025',
      'GBP 1.25 Mar 1, 2025',
      'JPY 0.007 Jan 1, 2025',
    ])
      has(`${rate} entered by the owner`);
    has(
      '2 entries have no exchange rate for the day (CAD) and stand in no total. Enter the rate under Settings.',
    );
    has('What was realized is not known for 1 sale');
    has('1 purchase has no day and stands in no year: Singles (GBP 8.00).');
    has('These are records, not tax advice');
  });
});

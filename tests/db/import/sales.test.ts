import ExcelJS from 'exceljs';
import { beforeEach, describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { listSales } from '../../../db/records/sales/sales.ts';
import { newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, fixture, lookAt, rejections, take } from './importing.ts';

let collection: Collection;
beforeEach(async () => {
  collection = await newCollection();
  await take(collection, fixture('club-list.csv'), { as: 'reference' });
});

describe.each(['csv', 'xlsx'])('sales kept by hand as %s', format => {
  const file = fixture(`seen-sales.${format}`);

  it('give records, each price in its own currency and decimal sign', async () => {
    const result = await take(collection, file, { as: 'sales' });
    const sales = (await listSales(collection.read.db)).sort((a, b) => a.id - b.id);
    expect(sales.map(({ soldOn, price, currency, grade }) => [soldOn, price, currency, grade])).toEqual([
      ['2021-03-14', 125000, 'USD', 7.5],
      ['2021-03-14', 125000, 'EUR', 7],
      ['2021-06-28', 1250, 'EUR', 7],
      ['2022-01-05', 1800, 'GBP', null],
      ['2022-03-03', 2250, 'USD', 5],
      ['2022-04-04', 3100, 'EUR', 5],
    ]);
    expect(sales[5]).toMatchObject({ castingId: null, asWritten: { casting: 'Wobbleston Flyer' } });
    expect(sales[1]?.missingParts).toEqual(['glazing']);
    expect(sales[3]?.missingParts).toEqual(['roof', 'wheels']);
    expect(sales[2]?.reference).toMatch(/^window shelf\s+back row$/);
    expect(result).toMatchObject({
      accepted: 6,
      unidentified: 1,
      duplicates: 1,
      duplicateLines: [11],
      addedCastings: 0,
    });
  });

  it('have what cannot be read refused with line, column and reason', async () => {
    expect(rejections(await take(collection, file, { as: 'sales' }))).toEqual([
      [8, 'Sold', expect.stringContaining('calendar does not have')],
      [9, 'Paid', expect.stringContaining('"make offer" is not an amount')],
      [12, null, expect.stringContaining('totals')],
    ]);
  });

  it('offer to add the castings that the reference lacks, as part of the import', async () => {
    const preview = await lookAt(collection, file, { as: 'sales' });
    expect(preview.missingCastings).toEqual(['Wobbleston Flyer']);
    const before = countOf(collection, 'casting');
    const result = await take(collection, file, { as: 'sales', addReference: true });
    expect(result).toMatchObject({ accepted: 6, addedCastings: 1 });
    expect(countOf(collection, 'casting')).toBe(before + 1);
    const again = await take(collection, file, { as: 'sales', addReference: true });
    expect(again).toMatchObject({ accepted: 0, duplicates: 7, addedCastings: 0 });
    expect(countOf(collection, 'casting')).toBe(before + 1);
  });
});

describe('sales', () => {
  it('whose dates can be read two ways wait for their order', async () => {
    const file = fileOf('sold_on,price,casting\n03/04/2021,10,Osmerry\n05/06/2021,11,Osmerry\n');
    const preview = await lookAt(collection, file, { as: 'sales' });
    expect(preview.counts).toMatchObject({ accepted: 0, rejected: 2 });
    expect(preview.warnings.join()).toContain('day first or month first');
    const chosen = await lookAt(collection, file, { as: 'sales', dateOrder: { sold_on: 'mdy' } });
    expect(chosen.counts.accepted).toBe(2);
    await take(collection, file, { as: 'sales', dateOrder: { sold_on: 'dmy' } });
    expect((await listSales(collection.read.db)).map(sale => sale.soldOn).sort()).toEqual([
      '2021-04-03',
      '2021-06-05',
    ]);
  });

  it('learn the order of their dates from the ones that leave no doubt', async () => {
    const file = fileOf('sold_on,price,casting\n03/04/2021,10,Osmerry\n25/06/2021,11,Osmerry\n');
    const preview = await lookAt(collection, file, { as: 'sales' });
    expect(preview.columns[0]?.dateOrder).toBe('dmy');
    expect(preview.warnings.join()).toContain('read day first');
    expect(preview.counts.accepted).toBe(2);
  });

  it('take the currency of bare amounts from the choice, else the collection', async () => {
    const file = fileOf('sold_on,price,casting\n2021-04-03,10,Osmerry\n');
    await take(collection, file, { as: 'sales', currency: 'JPY' });
    await take(collection, file, { as: 'sales' });
    expect((await listSales(collection.read.db)).map(sale => [sale.price, sale.currency])).toEqual(
      expect.arrayContaining([
        [10, 'JPY'],
        [1000, 'USD'],
      ]),
    );
  });

  it('refuse an amount that contradicts its row, an unknown currency, nothing, and less than nothing', async () => {
    const file = fileOf(
      'sold_on,price,currency,casting\n2021-04-03,€ 10,USD,Osmerry\n2021-04-03,10,QQQ,Osmerry\n2021-04-03,,USD,Osmerry\n2021-04-03,-5,USD,Osmerry\n2021-04-03,0,USD,Osmerry\n,5,USD,Osmerry\n',
    );
    const result = await take(collection, file, { as: 'sales' });
    expect(rejections(result).map(([line, column]) => [line, column])).toEqual([
      [2, 'price'],
      [3, 'currency'],
      [4, 'price'],
      [5, 'price'],
      [6, 'price'],
      [7, 'sold_on'],
    ]);
    expect(countOf(collection, 'sale_record')).toBe(0);
  });

  it('are known again whatever was added to the reference since: by themselves, or by hand', async () => {
    const file = fileOf(
      'sold_on,price,casting,colour,release_year,rear_end\n2021-04-03,10,Skiffle,Ember,1969,twin lamps\n2021-04-04,11,Halcyard,Sandstone,,\n',
    );
    expect(await take(collection, file, { as: 'sales', addReference: true })).toMatchObject({ accepted: 2 });
    expect(await take(collection, file, { as: 'sales', addReference: true })).toMatchObject({
      accepted: 0,
      duplicates: 2,
    });
    // The colour that the reference lacked is added, so that the text now leads to a variation.
    await take(collection, fileOf('casting,colour,release_year\nHalcyard,Sandstone,1970\n'), {
      as: 'reference',
    });
    expect(await take(collection, file, { as: 'sales' })).toMatchObject({ accepted: 0, duplicates: 2 });
    expect(countOf(collection, 'sale_record')).toBe(2);
    // Another price, day or grade is another sale.
    const other = fileOf('sold_on,price,casting,colour\n2021-04-04,12,Halcyard,Sandstone\n');
    expect(await take(collection, other, { as: 'sales' })).toMatchObject({ accepted: 1 });
  });

  it('of which amounts have the decimal sign of their column before three digits are thousands, and this is asked', async () => {
    const file = fileOf(
      'sold_on;price;casting\n2021-04-03;45,50;Osmerry\n2021-04-04;12,00;Osmerry\n2021-04-05;$2,400;Osmerry\n2021-04-06;1.250;Osmerry\n',
    );
    const preview = await lookAt(collection, file, { as: 'sales' });
    expect(preview.warnings.join()).toMatch(
      /"price" has amounts such as "\$2,400" \(1\).*Choose the decimal sign/,
    );
    await take(collection, file, { as: 'sales' });
    const sales = (await listSales(collection.read.db)).sort((a, b) => a.id - b.id);
    expect(sales.map(sale => sale.price)).toEqual([4550, 1200, 240_000, 125_000]);
    const chosen = await lookAt(collection, file, { as: 'sales', decimal: { '*': ',' } });
    expect(chosen.warnings).toEqual([]);
  });

  it('in a spreadsheet are in the currency that their cells show', async () => {
    const book = new ExcelJS.Workbook();
    const sheet = book.addWorksheet('Sales');
    sheet.addRow(['sold_on', 'price', 'casting']);
    for (const numFmt of ['#,##0.00 "€"', '[$£-809]#,##0.00', '0.00', '#,##0 "kr"']) {
      const row = sheet.addRow([new Date(Date.UTC(2021, 3, 3)), 45, 'Osmerry']);
      row.getCell(2).numFmt = numFmt;
      row.getCell(1).numFmt = 'yyyy-mm-dd';
    }
    const file = fileOf(new Uint8Array(await book.xlsx.writeBuffer()), 'sales.xlsx');
    const result = await take(collection, file, { as: 'sales' });
    expect(rejections(result)).toEqual([[5, 'price', expect.stringContaining('"kr"')]]);
    const sales = (await listSales(collection.read.db)).sort((a, b) => a.id - b.id);
    expect(sales.map(sale => sale.currency)).toEqual(['EUR', 'GBP', 'USD']);
  });

  it('that are repainted count in no estimate until it is said what that means, and then do', async () => {
    const rows = 'sold_on,price,casting,finish\n2021-04-03,10,Osmerry,repainted\n';
    const result = await take(collection, fileOf(rows), { as: 'sales' });
    expect(result.notUnderstood).toMatchObject([{ text: 'repainted', field: 'finish_state', meaning: '' }]);
    expect((await listSales(collection.read.db))[0]).toMatchObject({
      excluded: true,
      excludedWhy: 'Its finish is not settled: "repainted"',
    });
    const words = [{ column: '*', text: 'Repainted', field: 'finish_state', meaning: 'restored' }];
    expect(await take(collection, fileOf(rows), { as: 'sales', words })).toMatchObject({ duplicates: 1 });
    const after = { finishState: 'restored', excluded: false, excludedWhy: '' };
    expect(await listSales(collection.read.db)).toMatchObject([after]);
  });

  it('imported as a lot are remarked on, and columns that are not read are named', async () => {
    const file = fileOf('Date sold,Price,Car,Weather\n2021-04-03,10,Osmerry,rain\n');
    const asLot = await take(collection, file, { as: 'lot', dryRun: true });
    expect(asLot.notes.join('\n')).toContain(
      '"Date sold" and "Price" look like the day and the price of sales',
    );
    expect(asLot.notes.join('\n')).toContain('Not read: "Weather"');
    const asSales = await take(collection, file, { as: 'sales', dryRun: true });
    expect(asSales.notes.join('\n')).toContain('Not read: "Weather"');
  });
});

import { describe, expect, it } from 'vitest';
import { ourColumns } from '../../../db/import/columns.ts';
import { exportColumns } from '../../../reports/spreadsheet/columns.ts';
import { newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, lookAt, newLot, take } from './importing.ts';

const list = fileOf(
  [
    'Cars bought in 2024,,,,,,',
    'as of,Sunday,,,,,',
    'Car,Cond.,Paint,Paid,Bought on,From,Weather',
    'Silver Kite,C6,aqua,12.00,2024-05-04,Hall fair,rain',
    'Corriemuir Coupe,beater,blue,8.00,2024-05-04,Hall fair,sun',
    'Brackenhall Van,C5,purple,,2024-05-04,Hall fair,-',
    'Brackenhall Van,C3,,30.00,2024-06-01,Anna,',
    'Silver Kite,C4,red,,,,',
  ].join('\n'),
);
const lot = newLot('Everything');

describe('a look at a file', () => {
  it('says which lots it would make, and an import makes just those', async () => {
    const collection = await newCollection();
    const seen = await lookAt(collection, list, { as: 'lot', lot });
    expect(seen.hasPurchases).toBe(true);
    expect(seen.lots).toEqual([
      {
        name: 'Hall fair, 2024-05-04',
        boughtOn: '2024-05-04',
        seller: 'Hall fair',
        currency: 'USD',
        cars: 3,
        priced: 2,
        paid: 2000,
        isTogether: true,
      },
      {
        name: 'Everything',
        boughtOn: null,
        seller: '',
        currency: 'USD',
        cars: 2,
        priced: 1,
        paid: 3000,
        isTogether: false,
      },
    ]);
    const taken = await take(collection, list, { as: 'lot', lot });
    expect(taken.lots?.map(({ name, cars }) => [name, cars])).toEqual([
      ['Everything', 2],
      ['Hall fair, 2024-05-04', 3],
    ]);
  });

  it('puts all cars into one lot where that is chosen, and knows them again either way', async () => {
    const collection = await newCollection();
    const seen = await lookAt(collection, list, { as: 'lot', lot, lots: 'one' });
    expect(seen.lots).toMatchObject([{ name: 'Everything', cars: 5, priced: 3, isTogether: false }]);
    expect(seen.hasPurchases).toBe(true);
    const taken = await take(collection, list, { as: 'lot', lot, lots: 'one' });
    expect(taken.lots).toMatchObject([{ name: 'Everything', cars: 5 }]);
    expect(countOf(collection, 'lot')).toBe(1);
    expect(await take(collection, list, { as: 'lot', lot })).toMatchObject({ accepted: 0, duplicates: 5 });
    const divided = await newCollection();
    await take(divided, list, { as: 'lot', lot });
    expect(await take(divided, list, { as: 'lot', lot, lots: 'one' })).toMatchObject({
      accepted: 0,
      duplicates: 5,
    });
  });

  it('reads amounts that name no currency in that of the lot into which they go', async () => {
    const collection = await newCollection();
    const euros = { ...lot, name: 'Euros', currency: 'EUR' as const };
    const { lot: made } = await take(collection, fileOf('Car,Paid\nSilver Kite,5.00\n'), {
      as: 'lot',
      lot: euros,
    });
    await take(collection, fileOf('Car,Paid\nBrackenhall Van,7.00\n'), { as: 'lot', lotId: made?.id });
    expect(countOf(collection, 'lot')).toBe(1);
    expect(collection.read.sqlite.prepare('SELECT sum(minor) FROM lot_cost').pluck().get()).toBe(1200);
  });

  it('counts the cells that were understood, in part or not, and those of columns that are not read', async () => {
    const collection = await newCollection();
    const seen = await lookAt(collection, list, { as: 'lot', lot });
    expect(seen.cells).toEqual({ understood: 24, partly: 0, unknown: 1, idle: 2 });
    expect((await take(collection, list, { as: 'lot', lot })).cells).toEqual(seen.cells);
    const inPart = fileOf('Car,Paint\nSilver Kite,"purple, painted by aunt Zed"\n');
    expect((await lookAt(collection, inPart, { as: 'lot', lot })).cells).toMatchObject({ partly: 1 });
  });

  it('offers the other lines that may be the headings, and reads from the chosen one', async () => {
    const collection = await newCollection();
    const seen = await lookAt(collection, list, { as: 'lot', lot });
    expect(seen.headingLine).toBe(3);
    expect(seen.headingLines[0]).toEqual({ line: 2, cells: ['as of', 'Sunday', '', '', '', '', ''] });
    const other = fileOf('What,How much\nCar,Paid\nSilver Kite,3.00\n');
    const chosen = await lookAt(collection, other, { as: 'lot', lot, headingLine: 1 });
    expect(chosen.columns.map(({ heading }) => heading).slice(0, 2)).toEqual(['What', 'How much']);
    const none = await lookAt(collection, fileOf('Silver Kite,C6\nBrackenhall Van,C5\n'), {
      as: 'lot',
      lot,
      headingLine: 0,
    });
    expect(none).toMatchObject({ headingLine: 0, counts: { accepted: 2 } });
    await expect(lookAt(collection, list, { as: 'lot', lot, headingLine: 99 })).rejects.toThrow(
      /headings cannot be on line 99/,
    );
  });

  it('reads of our own export what a list of cars has, and nothing that was worked out', async () => {
    const headings = exportColumns.map(({ name }) => name);
    const cells = headings.map(name => {
      if (/_(?:low|mid|high)$|^cost$|price_paid$/.test(name)) return '12.50';
      if (/_on$|date$/.test(name)) return '2026-10-31';
      if (/currency$/.test(name)) return 'USD';
      return name === 'grade' ? '6' : 'fair market value';
    });
    const file = fileOf([headings.join(','), cells.join(',')].join('\n'));
    const { columns } = await lookAt(await newCollection(), file, { as: 'lot', lot });
    const known = new Set(ourColumns.lot.map(({ name }) => name));
    const asOurs = columns.filter(({ ours }) => ours !== null);
    expect(asOurs.map(({ heading, ours }) => [heading, ours])).toEqual(
      asOurs.map(({ heading }) => [heading, heading]),
    );
    expect(asOurs.map(({ heading }) => heading)).toEqual(
      headings.filter(name => known.has(name) && name !== 'currency'),
    );
  });
});

import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';

const text = [
  '2026-02-01 Dovetail ember twin lamps C7 $40',
  '2026-02-02 lot of 3 Dovetail C5 $60',
  'Dovetail moss C6, 31.50',
  '2026-02-04 nice old Larkspur Van green C8 $22',
].join('\n');

describe('lines of sales', () => {
  it('are corrected one by one, and become one action', async () => {
    const { api } = await newCollectionService();
    const { dovetail } = await addReference(api);
    const before = await api.sales.list({});
    const read = await api.sales.readLines({ text });
    expect(read.rows.map(({ not, castingId, name }) => ({ not, castingId, name }))).toEqual([
      { not: null, castingId: dovetail, name: null },
      { not: 'lot', castingId: null, name: null },
      { not: 'no date', castingId: dovetail, name: null },
      { not: null, castingId: null, name: 'Larkspur Van' },
    ]);
    expect(read.unnamedCurrency).toEqual({ lines: 1, currency: 'USD' });

    const corrections = [
      { line: 1, fields: { grade: '7.5', colour: '', source: 'fair' } },
      { line: 2, castingId: dovetail, oneCar: true, fields: { price: '20' } },
      { line: 3, fields: { sold_on: '2026-02-03', currency: 'EUR' } },
    ];
    const corrected = await api.sales.readLines({ text, corrections, lines: [1, 2, 3] });
    expect(corrected.rows.map(({ fields, not }) => ({ ...fields, not }))).toEqual([
      expect.objectContaining({ grade: '7.5', source: 'fair', rear_end: 'twin lamps', not: null }),
      expect.objectContaining({ casting: 'Dovetail', price: '20.00', grade: '5', not: null }),
      expect.objectContaining({ price: '31.50', currency: 'EUR', sold_on: '2026-02-03', not: null }),
    ]);
    expect(corrected.rows[0]?.fields).not.toHaveProperty('colour');

    const added = await api.sales.addLines({ text, corrections, lines: [1, 2, 3] });
    expect(added).toMatchObject({ added: 3, known: 0, leftOut: 1 });
    const records = await api.sales.list({});
    expect(records).toHaveLength(before.length + 3);
    expect(records.find(({ currency }) => currency === 'EUR')).toMatchObject({
      price: 3150,
      castingId: dovetail,
    });
    const again = await api.sales.readLines({ text, corrections });
    expect(again.rows.map(({ known }) => known)).toEqual([true, true, true, false]);
    await api.collection.undo();
    expect(await api.sales.list({})).toEqual(before);
  });

  it('of a casting that is not known wait under their likely name', async () => {
    const { api } = await newCollectionService();
    await api.sales.addLines({ text: text.split('\n').slice(3).join('\n') });
    expect(await api.sales.list({})).toMatchObject([
      { castingId: null, casting: 'Larkspur Van', price: 2200 },
    ]);
    // What is not the name stays to be understood.
    expect(await api.words.waiting()).toMatchObject([{ text: 'nice old', sales: 1 }]);
  });

  it('of what is settled to be no car are left out, unless the line is said to be one', async () => {
    const { api } = await newCollectionService();
    const lines = '2026-02-04 Tin garage C8 $22\n2026-02-05 Tin Garage, 31';
    await api.cars.create({ lotId: null, cars: [{ asWritten: { casting: 'tin garage' }, grade: 6 }] });
    await api.names.settle({ texts: ['tin garage'], settlement: { as: 'not a car' } });
    expect((await api.sales.readLines({ text: lines })).rows.map(({ not }) => not)).toEqual([
      'not a car',
      'not a car',
    ]);
    expect(await api.sales.addLines({ text: lines })).toMatchObject({ added: 0, leftOut: 2 });
    const corrections = [{ line: 1, oneCar: true }];
    expect(await api.sales.addLines({ text: lines, corrections })).toMatchObject({ added: 1, leftOut: 1 });
    expect(await api.sales.list({})).toMatchObject([{ casting: 'Tin garage', price: 2200 }]);
  });

  it('take no correction that their field cannot hold', async () => {
    const { api } = await newCollectionService();
    const correct = (fields: Record<string, string>) =>
      refusalOf(api.sales.readLines({ text, corrections: [{ line: 3, fields }] }));
    expect((await correct({ grade: 'lovely' })).message).toBe(
      'Line 3: "lovely" could not be read as the grade.',
    );
    expect((await correct({ price: '1,000' })).message).toBe(
      'Line 3: "1,000" could not be read as the price.',
    );
    expect((await correct({ sold_on: '3/4/26' })).message).toBe(
      'Line 3: "3/4/26" could not be read as the day of the sale.',
    );
  });

  it('ask once for the order of dates, with an example', async () => {
    const { api } = await newCollectionService();
    const open = 'Dovetail C6 3/4/26 $30\nDovetail C7 5.6.26 $40';
    expect(await api.sales.readLines({ text: open })).toMatchObject({
      openDates: { lines: 2, example: '3/4/26' },
    });
    const settled = await api.sales.readLines({ text: open, dates: 'mdy' });
    // The second day would lie after today, read the other way or not.
    expect(settled.openDates).toEqual({ lines: 0, example: null });
    expect(settled.rows[0]?.fields.sold_on).toBe('2026-03-04');
  });
});

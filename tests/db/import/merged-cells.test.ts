import ExcelJS from 'exceljs';
import { expect, test } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { mergedDown } from '../../../db/import/files/merged-cells.ts';
import { zipEntries } from '../../../db/import/files/zip.ts';
import type { ImportKind } from '../../../db/import/index.ts';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, newLot, take } from './importing.ts';
import { bookOf, zipOf } from './raw-zip.ts';

type Row = (string | number | null)[];

const sheetOf = async (rows: Row[], merged: string[]): Promise<File> => {
  const book = new ExcelJS.Workbook();
  const sheet = book.addWorksheet('Cars');
  sheet.addRows(rows);
  for (const range of merged) sheet.mergeCells(range);
  return fileOf(new Uint8Array(await book.xlsx.writeBuffer()), 'cars.xlsx');
};

const read = async (collection: Collection, file: File, as: ImportKind) => {
  const { rows = [], notes } = await take(collection, file, {
    as,
    rows: true,
    dryRun: true,
    ...(as === 'lot' && { lot: newLot('Shelf') }),
  });
  const cars = rows.filter(({ not }) => not !== 'headings' && not !== 'a title');
  return { notes, cars: cars.map(({ line, fields }) => ({ line, ...fields })) };
};

test('a cell merged over several rows counts for each of them, but an amount or a number for none of them', async () => {
  const file = await sheetOf(
    [
      ['Car', 'Colour', 'Grade', 'Paid', 'Qty', 'Location', 'Seller', 'Bought on'],
      ['Silver Kite', 'red', 'C6', 30, 1, 'Top shelf', 'Fair', '2026-03-14'],
      [null, 'blue', 'C7', null, null, null, null, null],
      [null, 'green', null, null, null, null, null, null],
      ['Otterholt', null, 'C5', 12, 1, null, null, null],
    ],
    ['A2:A4', 'C3:C4', 'D2:D4', 'E2:E4', 'F2:F4', 'G2:G4', 'H2:H4'],
  );
  const { cars, notes } = await read(await newCollection(), file, 'lot');
  const shared = { casting: 'Silver Kite', location: 'Top shelf', seller: 'Fair', bought_on: '2026-03-14' };
  expect(cars).toMatchObject([
    { line: 2, ...shared, colour: 'red', grade: 6 },
    { line: 3, ...shared, colour: 'blue', grade: 7 },
    { line: 4, ...shared, colour: 'green' },
    { line: 5, casting: 'Otterholt', grade: 5 },
  ]);
  expect(cars.map(car => 'price_paid' in car)).toEqual([false, false, false, true]);
  expect('grade' in (cars[2] ?? {})).toBe(false);
  expect('location' in (cars[3] ?? {})).toBe(false);
  expect(notes.filter(note => note.includes('merged'))).toEqual([
    expect.stringMatching(/^"Paid" .* from line 2 on: it is read for none of them, .*"30 over 3 rows"/),
    expect.stringMatching(/^"Qty" /),
  ]);
});

test('a cell merged over several columns and rows counts for each of the rows, in its first column', async () => {
  const file = await sheetOf(
    [
      ['Car', 'Colour', 'Grade', 'Location', 'Seller'],
      ['Silver Kite', 'red', 'C6', 'Top shelf', null],
      ['Silver Kite', 'blue', 'C7', null, null],
      ['Otterholt', 'green', 'C5', null, 'Fair'],
    ],
    ['D2:E3'],
  );
  const { cars } = await read(await newCollection(), file, 'lot');
  expect(cars.map(car => ['location', 'seller'].map(name => (car as Record<string, unknown>)[name]))).toEqual(
    [
      ['Top shelf', undefined],
      ['Top shelf', undefined],
      [undefined, 'Fair'],
    ],
  );
});

test('what is merged down from headings, or stands in a column that is not read, is said of no row', async () => {
  const file = await sheetOf(
    [
      ['Car', 'Colour', 'Grade', 'Puzzle'],
      [null, 'red', 'C6', 'x'],
      ['Otterholt', 'blue', 'C5', null],
    ],
    ['A1:A2', 'D2:D3'],
  );
  const { cars } = await read(await newCollection(), file, 'lot');
  expect(cars).toMatchObject([{ line: 2 }, { line: 3, casting: 'Otterholt', colour: 'blue' }]);
  expect(JSON.stringify(cars[0])).not.toContain('Car');
  expect(JSON.stringify(cars[1])).not.toContain('"x"');
});

test('a day merged over several sales is the day of each, and blocks side by side have cells of their own', async () => {
  const sales = await sheetOf(
    [
      ['Date', 'Car', 'Price'],
      ['2026-02-03', 'Silver Kite', 30],
      [null, 'Otterholt', 12],
    ],
    ['A2:A3'],
  );
  expect((await read(await newCollection(), sales, 'sales')).cars).toMatchObject([
    { casting: 'Silver Kite', sold_on: '2026-02-03' },
    { casting: 'Otterholt', sold_on: '2026-02-03' },
  ]);
  const beside = await sheetOf(
    [
      ['Car', 'Colour', 'Car', 'Colour'],
      ['Silver Kite', 'red', 'Otterholt', 'blue'],
      [null, 'green', 'Box Van', null],
    ],
    ['A2:A3', 'D2:D3'],
  );
  expect((await read(await newCollection(), beside, 'lot')).cars).toMatchObject([
    { casting: 'Silver Kite', colour: 'red' },
    { casting: 'Otterholt', colour: 'blue' },
    { casting: 'Silver Kite', colour: 'green' },
    { casting: 'Box Van', colour: 'blue' },
  ]);
});

test('merged cells are found wherever pieces of the sheet end, those that go across one line alone left out', async () => {
  const rows = Array.from(
    { length: 4000 },
    (_, i) => `<row><c t="str"><v>car ${i} ${i * 7919}</v></c></row>`,
  );
  const merges = Array.from({ length: 3000 }, (_, i) => `<x:mergeCell ref="B${i * 3 + 1}:B${i * 3 + 2}"/>`);
  const parts = bookOf({ Cars: rows.join('') });
  parts['xl/pages/p1.xml'] = (parts['xl/pages/p1.xml'] ?? '').replace(
    '</sheetData>',
    `</sheetData><x:mergeCells>${merges.join('')}<x:mergeCell ref="A1:C1"/><x:mergeCell ref="A2:B9"/></x:mergeCells>`,
  );
  const entries = await zipEntries(new Blob([zipOf(parts)]));
  const merged = await mergedDown(entries.get('xl/pages/p1.xml')!);
  expect(merged).toHaveLength(3001);
  expect(merged).toContainEqual({ column: 0, from: 2, to: 9 });
  expect(merged.at(-1)).toEqual({ column: 1, from: 8998, to: 8999 });
});

test('a price merged over several sales is of none until its owner says what each brought', async () => {
  const file = await sheetOf(
    [
      ['Date', 'Car', 'Price'],
      ['2025-03-14', 'Silver Kite', 90],
      ['2025-03-14', 'Otterholt', null],
      ['2025-03-15', 'Tallow', 12],
    ],
    ['C2:C3'],
  );
  const collection = await newCollection();
  const asked = await take(collection, file, { as: 'sales', rows: true, dryRun: true });
  expect(asked.accepted).toBe(1);
  expect(asked.notUnderstood).toMatchObject([
    { column: 'Price', text: '90 over 2 rows', field: 'price', count: 2, lines: [2, 3] },
  ]);
  const words = [{ column: 'Price', text: '90 over 2 rows', field: 'price', meaning: '45' }];
  const told = await take(collection, file, { as: 'sales', rows: true, words });
  expect(told.accepted).toBe(3);
  expect(told.rows?.slice(1).map(({ fields }) => fields.price)).toEqual([45, 45, 12]);
});

import ExcelJS from 'exceljs';
import { describe, expect, test } from 'vitest';
import { openTable } from '../../../db/import/files/table.ts';
import type { ImportOptions, TableRow } from '../../../db/import/index.ts';
import { newCollection } from '../../helpers/collections.ts';
import { strangersFile } from '../../helpers/strangers.ts';
import { fileOf, newLot, take } from './importing.ts';

const laidOut = async (
  content: string | Uint8Array<ArrayBuffer>,
  options: Partial<ImportOptions> = {},
  name?: string,
) => {
  const file = fileOf(content, name);
  const table = await openTable(file, file.name, {
    as: 'lot',
    map: {},
    decimal: {},
    dateOrder: {},
    ...options,
  });
  const read = async () => {
    const rows: TableRow[] = [];
    for await (const batch of table.rows()) rows.push(...batch);
    return rows;
  };
  await read();
  const rows = await read();
  // Whether from memory or from the file, another reading is the same.
  expect(await read()).toEqual(rows);
  return { table, rows };
};

/** Each row of the list by its headings, blanks left out; another line by what it is. */
const shown = ({ table, rows }: Awaited<ReturnType<typeof laidOut>>) =>
  rows.map(({ line, not, cells }) => [
    line,
    not ??
      Object.fromEntries(
        cells.flatMap((cell, index) => (cell === null || cell === '' ? [] : [[table.headings[index], cell]])),
      ),
  ]);

describe('the lines of a file', () => {
  test('may hold two blocks, one below the other, each with a title and headings of its own', async () => {
    const list = await laidOut(strangersFile('two-blocks.csv'));
    expect(list.table.headings).toEqual(['Car', 'Color', 'Grade', 'Notes']);
    expect(shown(list)).toEqual([
      [1, 'a title'],
      [2, 'headings'],
      [3, { Car: 'Brackenhall Van', Color: 'Damson', Grade: 'C7' }],
      [4, { Car: 'Silver Kite', Color: 'Tidepool', Grade: 'C6', Notes: 'ramp there' }],
      [5, { Car: 'Dovecote Estate', Color: 'Copperleaf', Grade: 'VG+' }],
      [7, 'a title'],
      [8, 'headings'],
      [9, { Car: 'Thornwick Saloon', Color: 'Inkwell', Grade: 'G', Notes: 'glass cracked' }],
      [10, { Car: 'Sluice Racer', Color: 'Ember', Grade: 'P', Notes: 'for parts' }],
      [11, { Car: 'Corriemuir Coupe', Color: 'lt grn', Grade: '8-9' }],
      [12, { Car: 'Corriemuir Coupe', Color: 'dk blue', Grade: '7+' }],
      [13, { Car: 'Total cars: 7' }],
    ]);
  });

  test('of a second block may have other headings, in another order and in other words', async () => {
    const list = await laidOut(
      'Car,Color,Grade\nSilver Kite,aqua,C6\n\nKept in the case:\nCond.,Model,Paid\nC5,Sluice Racer,$4\n',
    );
    expect(list.table.headings).toEqual(['Car', 'Color', 'Grade', 'Paid']);
    expect(shown(list).slice(1)).toEqual([
      [2, { Car: 'Silver Kite', Color: 'aqua', Grade: 'C6' }],
      [4, 'a title'],
      [5, 'headings'],
      [6, { Car: 'Sluice Racer', Grade: 'C5', Paid: '$4' }],
    ]);
  });

  test('may hold two blocks beside one another: each line is two rows', async () => {
    for (const gap of [',', ',,'])
      expect(
        shown(
          await laidOut(
            `Left tray,,${gap}Right tray,\nCar,Grade${gap}Car,Grade\nSilver Kite,C6${gap}Sluice Racer,C5\nPennyfeather,C8${gap},\n,${gap}Otterholt,C4\n`,
          ),
        ),
      ).toEqual([
        [1, 'a title'],
        [2, 'headings'],
        [3, { Car: 'Silver Kite', Grade: 'C6' }],
        [3, { Car: 'Sluice Racer', Grade: 'C5' }],
        [4, { Car: 'Pennyfeather', Grade: 'C8' }],
        [5, { Car: 'Otterholt', Grade: 'C4' }],
      ]);
  });

  test('may have headings further down that its owner has mapped, alone among others that nobody knows', async () => {
    const text =
      'Car,Grade\nSilver Kite,C6\nOtterholt,Wobble\n\nWhatsit,Blotch\nSluice Racer,red\nBox Van,blue\n';
    const collection = await newCollection();
    const options = { as: 'lot', rows: true, dryRun: true, lot: newLot('Tin') } as const;
    const read = async (map: Record<string, string>) =>
      (await take(collection, fileOf(text), { ...options, map })).rows?.flatMap(({ not, fields }) =>
        not === null ? [fields] : [],
      );
    expect(await read({ Whatsit: 'casting' })).toMatchObject([
      { casting: 'Silver Kite', grade: 6 },
      { casting: 'Otterholt' },
      { casting: 'Sluice Racer' },
      { casting: 'Box Van' },
    ]);
    expect((await read({ Car: 'casting', Whatsit: 'casting' }))?.map(({ casting }) => casting)).toEqual([
      'Silver Kite',
      'Otterholt',
      'Sluice Racer',
      'Box Van',
    ]);
    expect(await read({ Blotch: 'colour' })).toMatchObject([{}, {}, { colour: 'red' }, { colour: 'blue' }]);
    await expect(read({ Elsewhere: 'casting' })).rejects.toThrow('There is no heading "Elsewhere"');
  });

  test('may have no headings at all, or one cell each', async () => {
    const list = await laidOut(strangersFile('no-headings.csv'));
    expect([list.table.headingLine, list.rows.length, list.table.nameless.size]).toEqual([0, 8, 6]);
    expect(list.rows[0]?.cells).toEqual(['1', 'Brackenhall Van', '68', 'purple', 'C6', '12.00']);
    const cells = await laidOut(strangersFile('one-cell.csv'));
    expect(shown(cells)[0]).toEqual([1, 'a title']);
    expect(cells.rows.slice(1).map(({ cells: [only], not }) => [only, not])[4]).toEqual([
      'Dovecote Estate dairy white, hamper missing',
      undefined,
    ]);
    expect(cells.rows).toHaveLength(10);
  });

  test('may be remarks between the rows, but a name that stands alone is a car', async () => {
    const list = await laidOut(
      'Car,Color,Grade\nSilver Kite,,\nBottom shelf:,,\nBox Van,,\nOtterholt,red,C4\n',
    );
    expect(shown(list).slice(1)).toEqual([
      [2, { Car: 'Silver Kite' }],
      [3, 'a title'],
      [4, { Car: 'Box Van' }],
      [5, { Car: 'Otterholt', Color: 'red', Grade: 'C4' }],
    ]);
  });

  test('keep cells beyond their headings beyond those of other blocks, too', async () => {
    const list = await laidOut('Car,Grade\nSilver Kite,C6,more\n\nCar,Paid\nSluice Racer,$4,else\n');
    expect(list.rows.map(({ cells }) => cells).filter((_, index) => index % 2 === 1)).toEqual([
      ['Silver Kite', 'C6', null, 'more'],
      ['Sluice Racer', null, '$4', 'else'],
    ]);
  });

  test('longer than what is read at once keep their blocks', async () => {
    const block = (heads: string, cars: number) =>
      `${heads}\n${Array.from({ length: cars }, (_, i) => `Osmerry ${i},red,C${1 + (i % 9)}`).join('\n')}\n`;
    const { table, rows } = await laidOut(block('Car,Color,Grade', 6000) + block('Model,Colour,Cond.', 6000));
    expect(table.headings).toEqual(['Car', 'Color', 'Grade']);
    expect(rows.filter(({ not }) => not === undefined)).toHaveLength(12_000);
    expect(rows.at(-1)).toEqual({ line: 12_002, cells: ['Osmerry 5999', 'red', 'C6'] });
  });
});

test('sheets that are no lists of cars are told apart from those that are', async () => {
  const book = new ExcelJS.Workbook();
  book
    .addWorksheet('About')
    .addRows([['My cars'], ['Colour', 'what the seller said'], ['Base', 'as I saw it']]);
  const cars = book.addWorksheet('Cars');
  cars.mergeCells('A1:C1');
  cars.getCell('A1').value = 'What is in the cabinet';
  cars.addRows([
    ['Car', 'Grade', 'Seen'],
    ['Silver Kite', 0.8, 45000],
  ]);
  cars.getCell('B3').numFmt = '0%';
  const { table, rows } = await laidOut(new Uint8Array(await book.xlsx.writeBuffer()), {}, 'cars.xlsx');
  expect(rows.map(({ sheet, line, not }) => [sheet, line, not])).toEqual([
    ['About', 1, 'not a list'],
    ['About', 2, 'not a list'],
    ['About', 3, 'not a list'],
    ['Cars', 1, 'a title'],
    ['Cars', 2, 'headings'],
    ['Cars', 3, undefined],
  ]);
  expect(table.headings).toEqual(['Car', 'Grade', 'Seen']);
  expect(rows.at(-1)?.cells).toEqual(['Silver Kite', '80%', 45000]);
});

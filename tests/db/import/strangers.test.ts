import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { newCollection } from '../../helpers/collections.ts';
import { cellsOf, rowsOf } from './strangers.ts';

const truth = JSON.parse(
  readFileSync(fileURLToPath(new URL('../../fixtures/strangers/sixty.truth.json', import.meta.url)), 'utf8'),
) as { line: number; casting: string }[];

const word = (column: string, text: string, field: string, meaning: string) => ({
  column,
  text,
  field,
  meaning,
});

/** What the owner of sixty.csv answers: one meaning for each text that the import asks about. */
const answers = [
  word('Paint', 'lt grn', 'colour', 'Limewash'),
  word('Paint', 'yel', 'colour', 'yellow'),
  word('Paint', 'dk blue', 'colour', 'dark blue'),
  word('Base', 'plain', 'base paint', 'none'),
  word('Base', 'painted', 'base paint', 'full'),
  word('Finish', 'repaint', 'finish state', 'restored'),
  word('Cond.', 'beater', 'grade', 'C2'),
  word('Cond.', 'VG+', 'grade', 'C6.5'),
  word('Cond.', '7+', 'grade', 'C7.5'),
  word('Cond.', 'mint', 'grade', 'C9.5'),
  word('Cond.', '8-9', 'grade', 'C8.5'),
  word('Cond.', 'nice', 'grade', 'C7'),
];

describe('lists by other hands', () => {
  it.each([
    ['german.csv', 7],
    ['percent.csv', 6],
    ['purchases.csv', 10],
    ['sixty.csv', 60],
    ['stars.csv', 7],
    ['two-blocks.csv', 7],
  ])('%s: every row that is a car is taken without an answer', async (name, cars) => {
    const { rows, accepted, notUnderstood } = await rowsOf(await newCollection(), `strangers/${name}`);
    const { filled, understood } = cellsOf(rows);
    process.stdout.write(
      `${name}: ${accepted} of ${cars} cars taken, ${understood} of ${filled} cells understood, ${notUnderstood.length} texts asked about\n`,
    );
    expect(accepted).toBe(cars);
    expect(understood / filled).toBeGreaterThan(0.6);
    for (const row of rows)
      if (row.outcome === 'rejected') expect(row.not, `line ${row.line}`).not.toBeNull();
  });

  it('sixty.csv: twelve answers leave hardly a cell that is not understood, and no answer changes a wrong row', async () => {
    const collection = await newCollection();
    const before = await rowsOf(collection, 'strangers/sixty.csv');
    expect(before.notUnderstood).toHaveLength(12);
    const after = await rowsOf(collection, 'strangers/sixty.csv', answers);
    const { filled, understood } = cellsOf(after.rows);
    process.stdout.write(
      `sixty.csv: ${answers.length} answers, ${understood} of ${filled} cells understood\n`,
    );
    expect(understood / filled).toBeGreaterThanOrEqual(0.9);
    for (const [index, row] of after.rows.entries())
      if (before.rows[index]?.unread.length === 0) expect(row).toEqual(before.rows[index]);
    // Castings are as they are written; grouping their spellings is not the import's work.
    const letters = (text: unknown) =>
      String(text).toLowerCase().split(' ').sort().join(' ').replace(/s+$/, '');
    const named = truth.filter(({ line, casting }) => {
      const row = after.rows.find(one => one.line === line);
      return letters(row?.fields.casting) === letters(casting);
    });
    expect(named.length).toBeGreaterThanOrEqual(58);
    const line = (number: number) => after.rows.find(row => row.line === number);
    expect(line(16)?.fields).toMatchObject({
      colour: 'Limewash',
      grade: 7.5,
      base_paint: 'rear quarter',
      release_year: 1969,
    });
    expect(line(35)).toMatchObject({ fields: { finish_state: 'restored', grade: 8.5 }, unread: [] });
    expect(line(65)).toMatchObject({ not: 'a total', fields: {} });
  });

  it.each([
    ['letters.csv', 6],
    ['french.csv', 4],
    ['remarks-only.csv', 5],
    ['schoolmarks.csv', 5],
    ['qty.csv', 5],
    ['tenths.csv', 5],
  ])('%s is taken, and nothing is guessed', async (name, cars) => {
    const { rows, accepted } = await rowsOf(await newCollection(), `other-hands/${name}`);
    expect(accepted).toBe(cars);
    const byCar = Object.fromEntries(rows.map(({ line, fields }) => [line, fields]));
    if (name === 'letters.csv') {
      for (const row of rows) expect(row.fields.grade).toBeUndefined();
      expect(byCar[7]).not.toHaveProperty('colour');
      expect(byCar[3]).toMatchObject({ bought_on: '2019-05-12', price_paid: 4, price_paid_currency: 'GBP' });
      expect(byCar[8]).toMatchObject({ colour: 'Red', roof: 'white' });
    }
    if (name === 'french.csv') {
      expect(byCar[2]).toMatchObject({ base_paint: 'front quarter', release_year: 1968, price_paid: 25 });
      for (const row of rows) expect(row.fields.grade).toBeUndefined();
    }
    if (name === 'remarks-only.csv') {
      expect(byCar[2]).not.toHaveProperty('missing_parts');
      expect(byCar[3]).not.toHaveProperty('missing_parts');
      expect(byCar[4]).toMatchObject({ finish_state: 'restored' });
      expect(byCar[5]).toMatchObject({ missing_parts: 'wheels' });
    }
    if (name === 'schoolmarks.csv') for (const row of rows) expect(row.fields.grade).toBeUndefined();
    if (name === 'qty.csv')
      expect(byCar[2]).toMatchObject({
        quantity: 3,
        price_paid: 4,
        seller: 'Tarrow',
        bought_on: '2024-03-14',
      });
    if (name === 'tenths.csv') {
      expect(byCar[3]).toMatchObject({
        grade: 5.5,
        reproduction_parts: 'wheels',
        colour: 'aqua',
        own_estimate: 35,
      });
      expect(byCar[4]).not.toHaveProperty('finish_state');
      expect(byCar[5]).not.toHaveProperty('grade');
    }
  });

  it('a notebook: names in small letters, its own references and places, and a paint that was laid over', async () => {
    const { rows, accepted } = await rowsOf(await newCollection(), 'other-hands/notebook.csv');
    expect(accepted).toBe(7);
    const at = (line: number) => rows.find(row => row.line === line);
    expect(rows.flatMap(({ fields }) => fields.inventory_number ?? [])).toEqual([
      'A1',
      'A2',
      'A3',
      'A4',
      'A5',
      'A6',
      'A7',
    ]);
    expect(at(2)?.fields).toMatchObject({ casting: 'Harrow Estate', location: 'tin 2' });
    expect(at(3)?.fields).toMatchObject({ casting: 'harrow estate', colour: 'green' });
    expect(at(4)?.fields).toMatchObject({ casting: 'Dray Horse Box', bought_on: '2024-10-12' });
    expect(at(6)?.fields).toMatchObject({ casting: 'Merle Coupe', quantity: 2 });
    expect(at(6)?.note).toContain('is not an amount such as 1,250.00; "the pair" is not understood');
    expect(at(7)?.fields).not.toHaveProperty('casting');
    expect(at(7)?.fields).not.toHaveProperty('colour');
    expect(at(7)?.unread).toContainEqual({ column: 'Colour / finish', text: 'white repaint' });
    expect(at(7)?.note).toContain('"white repaint" says what became of the paint, not which it was');
  });

  it('school marks, stars and per cents become grades once the scale of their column is said', async () => {
    const collection = await newCollection();
    const grades = async (name: string, ...said: Parameters<typeof word>) =>
      (await rowsOf(collection, name, [word(...said)])).rows.flatMap(row => row.fields.grade ?? []);
    expect(await grades('other-hands/schoolmarks.csv', 'Note', '*', 'grade scale', 'school marks')).toEqual([
      8, 10, 4.5, 6.5, 1,
    ]);
    expect(await grades('strangers/stars.csv', 'Stars', '*', 'grade_scale', '5 stars')).toEqual([
      8, 6, 10, 4, 7, 2, 8,
    ]);
    expect(await grades('strangers/percent.csv', '*', '*', 'grade scale', '100 %')).toEqual([
      8, 5.5, 9, 4, 7, 9.5,
    ]);
    expect(await grades('other-hands/french.csv', 'Note /20', '*', 'grade scale', '20')).toEqual([8, 6.5, 4]);
  });
});

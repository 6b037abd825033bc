import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import Papa from 'papaparse';
import { afterAll, describe, expect, it } from 'vitest';
import { ourColumns, partColumns } from '../../../db/import/columns.ts';
import { exportColumns } from '../../../reports/spreadsheet/columns.ts';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);
const inside = (name: string) => new Database(join(at(name), 'collection.sqlite'));

/** By which columns of a list each column of a car goes out and comes back. */
const goesBy: Record<string, string[]> = {
  inventory_number: ['inventory_number'],
  casting_id: ['casting', 'maker', 'series'],
  release_id: ['release_name', 'release_year'],
  variation_id: [
    'colour',
    'body_finish',
    'base_paint',
    'rear_end',
    'roof',
    'interior',
    'glazing',
    'wheels',
    'accessory',
    'country',
  ],
  as_written: ['casting', 'colour'],
  grade_half: ['grade'],
  finish_state: ['finish_state'],
  status: ['status'],
  location: ['location'],
  notes: ['notes'],
  cost_minor: ['price_paid', 'price_paid_currency'],
  cost_fixed: ['price_paid'],
  own_low_minor: ['own_estimate'],
  own_mid_minor: ['own_estimate'],
  own_high_minor: ['own_estimate'],
  bought_on: ['bought_on'],
  seller: ['seller'],
  worn_colour: ['worn_colour'],
  worn_finish: ['worn_finish'],
  restorer_mark: ['restorer_mark'],
  purchase_left_out: ['purchase_left_out'],
  purchase_left_out_why: ['purchase_left_out'],
};
/** What is no list's to say: keys and times of the file, the lot by which it is imported, and what waits to be understood. */
const notOfAList = ['id', 'lot_id', 'created_at', 'updated_at', 'unread', 'heard'];

const written = [
  'No,Casting,Colour,Paid,Bought on,Seller,Est,Boxed,Box grade,Metal,Missing,Reproduction,Notes',
  '1,Osmerry,lt grn,12.50,2024-05-04,Anna,60-90,card,7,crack in the roof,bumpers,glazing,',
  '2,Skiffle,Ember,USD 7,2024-05-05,Ben,,box,8,,,,dent on the bonnet',
  '3,Ardwell,,,,,,yes,,,,,',
  '4,Harrow,,3,,,45,no,,,,,',
];

const told = (name: string) => {
  const db = inside(name);
  const cars = db.prepare('SELECT * FROM car ORDER BY inventory_number').all() as Record<string, unknown>[];
  const parts = db.prepare(
    'SELECT part, part_grade.grade_half, originality, note, checked_on FROM part_grade JOIN condition_check AS c ON c.id = check_id WHERE c.car_id = ? ORDER BY part',
  );
  const rows = cars.map(car => ({
    ...Object.fromEntries(Object.keys(goesBy).map(column => [column, car[column]])),
    parts: parts.all(car.id),
  }));
  db.close();
  return rows;
};

describe('every field that a car has', () => {
  it('has a column that goes out and one that comes back', async () => {
    writeFileSync(at('list.csv'), written.join('\n'));
    await answer(['import', at('list.csv'), '--as', 'lot', '--collection', at('first')]);
    const db = inside('first');
    const columns = db.prepare("SELECT name FROM pragma_table_info('car')").pluck().all() as string[];
    db.close();
    expect([...Object.keys(goesBy), ...notOfAList].sort()).toEqual(columns.sort());
    const out = new Set(exportColumns.map(({ name }) => name));
    const back = new Set(ourColumns.lot.map(({ name }) => name));
    for (const name of Object.values(goesBy).flat())
      expect([name, out.has(name), back.has(name)]).toEqual([name, true, true]);
    // What the list of sales tells better, or one column tells of all parts.
    const answers = ['is_original_paint', 'was_sold', 'is_owned'];
    const inAlone = [
      'description',
      ...answers,
      'quantity',
      'sold_on',
      'sold_for',
      'missing_parts',
      'reproduction_parts',
    ];
    const ofParts = [...Object.keys(partColumns), 'packaging', 'packaging_grade'];
    expect([...back].filter(name => !out.has(name))).toEqual([...inAlone, ...ofParts]);
  });

  it('comes back equal from CSV, XLSX and JSON lines', async () => {
    const db = inside('first');
    db.prepare(
      "UPDATE car SET worn_colour = 'Sky', worn_finish = 'enamel', restorer_mark = 'HR 7', finish_state = 'restored', status = 'donor', location = 'Shelf 2', grade_half = 13, own_low_minor = 5000, own_mid_minor = 5500, own_high_minor = 9000, purchase_left_out = 1, purchase_left_out_why = 'a gift, in part' WHERE inventory_number = '2'",
    ).run();
    db.prepare("UPDATE car SET purchase_left_out = 1 WHERE inventory_number = '4'").run();
    const check = db
      .prepare(
        'SELECT c.id FROM condition_check AS c JOIN car ON car.id = c.car_id WHERE inventory_number = ?',
      )
      .pluck();
    const part = db.prepare(
      'INSERT INTO part_grade (check_id, part, grade_half, originality, note) VALUES (?, ?, ?, ?, ?)',
    );
    part.run(check.get('2'), 'axles', 12, 'period replacement', 'bent, one');
    part.run(check.get('2'), 'roof', 17, 'original', '');
    part.run(check.get('2'), 'lamps', null, 'missing', 'left one');
    part.run(check.get('2'), 'base', null, 'original', 'C-shaped scratch');
    part.run(check.get('1'), 'front left wheel', null, 'reproduction', '');
    db.prepare('UPDATE condition_check SET checked_on = ? WHERE id = ?').run('2023-01-02', check.get('2'));
    db.prepare(
      "UPDATE part_grade SET originality = 'reproduction' WHERE part = 'packaging' AND check_id = ?",
    ).run(check.get('3'));
    db.close();
    const before = told('first');
    const partsOf = (i: number) => (before[i] as { parts: { part: string }[] }).parts;
    expect(partsOf(0)).toMatchObject([
      { part: 'bumpers', originality: 'missing' },
      { part: 'casting metal', note: 'crack in the roof' },
      { part: 'front left wheel' },
      { part: 'glazing', originality: 'reproduction' },
      { part: 'packaging', note: 'card', grade_half: 14 },
    ]);
    expect(partsOf(1).map(({ part: name }) => name)).toEqual([
      'axles',
      'base',
      'casting metal',
      'lamps',
      'packaging',
      'roof',
    ]);
    expect(partsOf(3)).toEqual([]);
    for (const format of ['csv', 'xlsx', 'jsonl']) {
      const file = at(`out.${format}`);
      await answer(['export', 'cars', '--collection', at('first'), '--out', file]);
      const taken = await answer(['import', file, '--as', 'lot', '--collection', at(format)]);
      expect([format, taken.accepted, taken.rejected]).toEqual([format, 4, []]);
      expect(told(format)).toEqual(before);
    }
    const list = Papa.parse<Record<string, string>>(
      readFileSync(at('out.csv'), 'utf8').replace('\ufeff', ''),
      { header: true, delimiter: ',' },
    );
    expect(list.data[0]).toMatchObject({ own_estimate: 'USD 60.00-90.00' });
    expect(list.data[0]?.parts).toContain('packaging: C7, card');
    expect(list.data[1]).toMatchObject({ own_estimate: 'USD 50.00-55.00-90.00', restorer_mark: 'HR 7' });
  });
});

import { describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { changesOf, newestAction, tablesOfCars } from '../../../db/history/changes.ts';
import { runAction, runBulk } from '../../../db/history/history.ts';
import { trackedTables } from '../../../db/history/tracking.ts';
import { redo, undo } from '../../../db/history/undo.ts';
import { addSample, at, newCollection } from '../../helpers/collections.ts';

const newest = (collection: Collection) => {
  const id = newestAction(collection.read.sqlite);
  return changesOf(collection.read.sqlite, { first: id, last: id });
};

const ways: Record<string, string> = {
  car: 't.id',
  condition_check: 't.car_id',
  part_grade: '(SELECT car_id FROM condition_check WHERE id = t.check_id)',
  restoration_plan: 't.car_id',
  plan_line: '(SELECT car_id FROM restoration_plan WHERE id = t.plan_id)',
  car_candidate: 't.car_id',
  decision: 't.car_id',
  photo: 't.car_id',
};

/** By car, all its rows as text, found without the schema's references; and by setting its value. */
const contents = ({ read: { sqlite } }: Collection) => {
  const cars = new Map<number, string>();
  for (const [table, way] of Object.entries(ways))
    for (const row of sqlite.prepare(`SELECT ${way} AS of_car, t.* FROM ${table} t ORDER BY t.id`).all()) {
      const { of_car: car, ...rest } = row as { of_car: number | null };
      if (car !== null) cars.set(car, (cars.get(car) ?? '') + table + JSON.stringify(rest));
    }
  return cars;
};

const differing = (before: Map<number, string>, after: Map<number, string>) =>
  [...new Set([...before.keys(), ...after.keys()])]
    .filter(id => before.get(id) !== after.get(id))
    .sort((a, b) => a - b);

const sorted = (ids: Iterable<number>) => [...ids].sort((a, b) => a - b);

const actions: [string, boolean, string][] = [
  ['a cell', false, 'UPDATE car SET grade_half = 15 WHERE id = 3'],
  ['a check', false, "INSERT INTO condition_check (car_id, checked_on) VALUES (4, '2026-01-02')"],
  [
    'a part of a check',
    false,
    "INSERT INTO part_grade (check_id, part, originality) VALUES (1, 'glazing', 'missing')",
  ],
  [
    'a plan and a line of it',
    false,
    `INSERT INTO restoration_plan (id, car_id, target_half, minutes_low, minutes_likely, minutes_high) VALUES (7, 5, 16, 1, 2, 3);
     INSERT INTO plan_line (plan_id, kind, name, low_minor, likely_minor, high_minor) VALUES (7, 'part', 'glass', 1, 2, 3)`,
  ],
  ['a line taken off', false, 'DELETE FROM plan_line WHERE plan_id = 7'],
  ['a car with all that hangs on it', false, 'DELETE FROM car WHERE id IN (4, 5)'],
  ['many cars', false, 'UPDATE car SET lot_id = NULL WHERE id > 6'],
  [
    'many new rows',
    true,
    `INSERT INTO car (inventory_number, created_at, updated_at) VALUES ('N-1', '', ''), ('N-2', '', '');
     INSERT INTO condition_check (car_id, checked_on) SELECT id, '2026-01-03' FROM car WHERE id < 3;
     UPDATE car SET notes = 'seen' WHERE id = 2`,
  ],
];

describe('what an action changed', () => {
  it('names the cars whose rows differ and no others, also when it is undone and done again', async () => {
    const collection = await newCollection();
    await addSample(collection);
    expect(sorted(newest(collection).cars)).toEqual(sorted(contents(collection).keys()));
    for (const [label, bulk, sql] of actions) {
      const before = contents(collection);
      await (bulk ? runBulk : runAction)(collection, label, at, async () =>
        collection.write.sqlite.exec(sql),
      );
      const after = contents(collection);
      const changed = differing(before, after);
      expect(changed.length, label).toBeGreaterThan(0);
      expect(sorted(newest(collection).cars), label).toEqual(changed);
      for (const move of [undo, redo]) {
        const { id } = await move(collection);
        const { cars } = changesOf(collection.read.sqlite, { first: id, last: id });
        expect(sorted(cars), `${label}, ${move.name}`).toEqual(changed);
      }
      expect(contents(collection)).toEqual(after);
    }
  });

  it('names settings by their keys, also of one that an undo has taken out, and tables that no car is in', async () => {
    const collection = await newCollection();
    await runAction(collection, 'Wrote a setting', at, async () =>
      collection.write.sqlite.exec(
        "INSERT INTO setting (key, value) VALUES ('owner', 'A'); INSERT INTO maker (name) VALUES ('Quillon Toys')",
      ),
    );
    const { id } = await undo(collection);
    const { sources, cars } = changesOf(collection.read.sqlite, { first: id, last: id });
    expect(sources.toSorted()).toEqual(['maker', 'setting', 'setting owner']);
    expect(cars.size).toBe(0);
  });

  it('knows which tables are of cars by what they cannot be without', async () => {
    const { read } = await newCollection();
    const found = tablesOfCars(read.sqlite);
    for (const table of Object.keys(ways)) expect(found.has(table), table).toBe(table !== 'photo');
    for (const table of ['lot', 'casting', 'sale_record', 'part', 'setting'])
      expect(found.has(table), table).toBe(false);
    for (const table of found) expect(trackedTables(read.sqlite).map(({ name }) => name)).toContain(table);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tableHashes } from '../../../db/backup/manifest.ts';
import type { Collection } from '../../../db/collection.ts';
import { historyOfRows, listHistory, pruneHistory, runAction, runBulk } from '../../../db/history/history.ts';
import { redo, undo } from '../../../db/history/undo.ts';
import { addSample, at, collectionErrorOf, newCollection } from '../../helpers/collections.ts';

/** The content of everything but history itself. */
const contentOf = ({ write: { sqlite } }: Collection) => {
  const { change, change_row, ...rest } = tableHashes(sqlite);
  return rest;
};

const act = (collection: Collection, label: string, sql: string, ...values: unknown[]) =>
  runAction(collection, label, at, async () => collection.write.sqlite.prepare(sql).run(...values));

describe('an action', () => {
  it('is one entry, with its label and time, newest first', async () => {
    const collection = await newCollection();
    await act(collection, 'Added a maker', "INSERT INTO maker (name) VALUES ('A')");
    await act(collection, 'Renamed a maker', "UPDATE maker SET name = 'B'");
    expect(await listHistory(collection.read.db)).toEqual([
      { id: 2, label: 'Renamed a maker', at, undone: false },
      { id: 1, label: 'Added a maker', at, undone: false },
    ]);
  });

  it('leaves nothing when it fails, not even an entry', async () => {
    const collection = await newCollection();
    const before = contentOf(collection);
    const failing = runAction(collection, 'Fails', at, async trx => {
      await trx.insertInto('maker').values({ name: 'A', country: null }).execute();
      throw new Error('on purpose');
    });
    await expect(failing).rejects.toThrow('on purpose');
    expect(contentOf(collection)).toEqual(before);
    expect(await listHistory(collection.read.db)).toEqual([]);
    await act(collection, 'Added a maker', "INSERT INTO maker (name) VALUES ('A')");
    expect(await listHistory(collection.read.db)).toHaveLength(1);
  });

  it('leaves no entry when it changed nothing', async () => {
    const collection = await newCollection();
    await act(collection, 'Added a maker', "INSERT INTO maker (name) VALUES ('A')");
    await act(collection, 'Renamed it the same', "UPDATE maker SET name = 'A'");
    expect(await listHistory(collection.read.db)).toHaveLength(1);
  });

  it('returns what its work returns, and refuses one inside another instead of waiting for ever', async () => {
    const collection = await newCollection();
    expect(await runAction(collection, 'Answers', at, async () => 42)).toBe(42);
    const nested = runAction(collection, 'Outer', at, () =>
      runAction(collection, 'Inner', at, async () => {}),
    );
    await expect(nested).rejects.toThrow('"Inner" was started inside another action');
    const reading = runAction(collection, 'Reads outside', at, () =>
      collection.read.db.selectFrom('maker').selectAll().execute(),
    );
    await expect(reading).rejects.toThrow('Inside an action read with its transaction');
  });

  it('waits for the one before it', async () => {
    const collection = await newCollection();
    const order: string[] = [];
    const slow = runAction(collection, 'First', at, async () => {
      await new Promise(resolve => setTimeout(resolve, 20));
      order.push('first');
    });
    await Promise.all([slow, runAction(collection, 'Second', at, async () => void order.push('second'))]);
    expect(order).toEqual(['first', 'second']);
  });

  it('refuses a row that points at nothing, at the end', async () => {
    const collection = await newCollection();
    await expect(
      act(collection, 'Broken', "INSERT INTO series (maker_id, name) VALUES (99, 'x')"),
    ).rejects.toThrow(/FOREIGN KEY/);
  });
});

describe('undo and redo', () => {
  it('take back and do again a whole action, cascaded rows included', async () => {
    const collection = await newCollection();
    await addSample(collection);
    await act(
      collection,
      'Checked',
      "INSERT INTO condition_check (car_id, checked_on) VALUES (1, '2026-01-01')",
    );
    await act(
      collection,
      'Graded',
      "INSERT INTO part_grade (check_id, part, grade_half) VALUES (1, 'roof', 14)",
    );
    const before = contentOf(collection);
    await act(collection, 'Deleted a car', 'DELETE FROM car WHERE id = 1');
    const after = contentOf(collection);
    expect(after).not.toEqual(before);
    expect(await undo(collection)).toMatchObject({ label: 'Deleted a car' });
    expect(contentOf(collection)).toEqual(before);
    expect(await redo(collection)).toMatchObject({ label: 'Deleted a car' });
    expect(contentOf(collection)).toEqual(after);
  });

  it('are a stack, whose undone tail a new action discards', async () => {
    const collection = await newCollection();
    for (const name of ['A', 'B', 'C'])
      await act(collection, name, 'INSERT INTO maker (name) VALUES (?)', name);
    expect([await undo(collection), await undo(collection)]).toMatchObject([{ label: 'C' }, { label: 'B' }]);
    expect(await redo(collection)).toMatchObject({ label: 'B' });
    await act(collection, 'D', "INSERT INTO maker (name) VALUES ('D')");
    const nothing = await collectionErrorOf(() => redo(collection));
    expect([nothing.code, nothing.message]).toEqual(['nothing-to-undo', 'There is nothing to redo.']);
    expect((await listHistory(collection.read.db)).map(action => action.label)).toEqual(['D', 'B', 'A']);
    for (const label of ['D', 'B', 'A']) expect(await undo(collection)).toMatchObject({ label });
    expect((await collectionErrorOf(() => undo(collection))).code).toBe('nothing-to-undo');
  });

  it('an action that changes nothing keeps what can be redone', async () => {
    const collection = await newCollection();
    await act(collection, 'A', "INSERT INTO maker (name) VALUES ('A')");
    await undo(collection);
    await act(collection, 'Nothing', "UPDATE maker SET name = 'x' WHERE id = 99");
    expect(await redo(collection)).toMatchObject({ label: 'A' });
  });

  it('pass through rows that swap a unique value', async () => {
    const collection = await newCollection();
    await addSample(collection);
    const before = contentOf(collection);
    await runAction(collection, 'Swapped numbers', at, async () => {
      const set = collection.write.sqlite.prepare('UPDATE car SET inventory_number = ? WHERE id = ?');
      set.run('spare', 1);
      set.run('Q-00001', 2);
      set.run('Q-00002', 1);
    });
    await undo(collection);
    expect(contentOf(collection)).toEqual(before);
  });

  it('keep every digit of a real number and every character of a text', async () => {
    const collection = await newCollection();
    await addSample(collection);
    await act(
      collection,
      'Measured',
      'UPDATE casting SET length_mm = ?, notes = ? WHERE id = 1',
      0.1 + 0.2,
      '"\\\u{1F697}\n{}',
    );
    const before = contentOf(collection);
    await act(
      collection,
      'Measured again',
      'UPDATE casting SET length_mm = NULL, notes = ? WHERE id = 1',
      '',
    );
    await undo(collection);
    expect(contentOf(collection)).toEqual(before);
    expect(collection.write.sqlite.prepare('SELECT length_mm FROM casting WHERE id = 1').pluck().get()).toBe(
      0.1 + 0.2,
    );
  });

  it('see the rows that REPLACE removes', async () => {
    const collection = await newCollection();
    await act(collection, 'Added', "INSERT INTO maker (name, country) VALUES ('A', 'x')");
    const before = contentOf(collection);
    await act(collection, 'Replaced', "REPLACE INTO maker (id, name, country) VALUES (7, 'A', 'y')");
    await undo(collection);
    expect(contentOf(collection)).toEqual(before);
  });
});

describe('bulk work', () => {
  it('is one entry whose rows come and go at once', async () => {
    const collection = await newCollection();
    const empty = contentOf(collection);
    await addSample(collection, { castings: 3, cars: 500 });
    const full = contentOf(collection);
    const rows = collection.write.sqlite.prepare('SELECT count(*) FROM change_row').pluck();
    expect(rows.get()).toBe(7);
    await undo(collection);
    expect(contentOf(collection)).toEqual(empty);
    await redo(collection);
    expect(contentOf(collection)).toEqual(full);
    expect(rows.get()).toBe(7);
    await undo(collection);
    expect(contentOf(collection)).toEqual(empty);
  });

  it('takes back its changes to rows that were there before, and never the rows', async () => {
    const collection = await newCollection();
    await addSample(collection);
    await act(collection, 'Added', "INSERT INTO maker (name) VALUES ('Old')");
    const before = contentOf(collection);
    await runBulk(collection, 'Moved and renamed', at, async () => {
      const { sqlite } = collection.write;
      const casting = sqlite
        .prepare("INSERT INTO casting (series_id, name) VALUES (1, 'New')")
        .run().lastInsertRowid;
      const release = sqlite.prepare("INSERT INTO release (casting_id, name) VALUES (?, 'New')").run(casting);
      // An older variation moves to the new release, so that taking the release out must not cascade to it.
      sqlite.prepare('UPDATE variation SET release_id = ? WHERE id = 2').run(release.lastInsertRowid);
      // An older name is freed and taken by a new row.
      sqlite.exec(
        "UPDATE maker SET name = 'Older' WHERE name = 'Old'; INSERT INTO maker (name) VALUES ('Old')",
      );
      sqlite.exec('DELETE FROM car WHERE id = 3');
    });
    const after = contentOf(collection);
    await undo(collection);
    expect(contentOf(collection)).toEqual(before);
    await redo(collection);
    expect(contentOf(collection)).toEqual(after);
    await undo(collection);
    expect(contentOf(collection)).toEqual(before);
  });

  it('leaves history as it was when it fails', async () => {
    const collection = await newCollection();
    const failing = runBulk(collection, 'Fails', at, async () => {
      collection.write.sqlite.exec("INSERT INTO maker (name) VALUES ('A')");
      throw new Error('on purpose');
    });
    await expect(failing).rejects.toThrow('on purpose');
    await act(collection, 'Added', "INSERT INTO maker (name) VALUES ('B')");
    await undo(collection);
    expect(collection.write.sqlite.prepare('SELECT count(*) FROM maker').pluck().get()).toBe(0);
  });
});

describe('history', () => {
  it('refuses to read beside an action, which holds up nothing afterwards', async () => {
    const collection = await newCollection();
    const beside = runAction(collection, 'Reads beside', at, async () =>
      collection.read.db.selectFrom('maker').selectAll().execute(),
    );
    await expect(beside).rejects.toThrow('read with its transaction');
    expect(await collection.read.db.selectFrom('maker').selectAll().execute()).toEqual([]);
    await act(collection, 'Added', "INSERT INTO maker (name) VALUES ('A')");
    expect(await collection.read.db.selectFrom('maker').select('name').execute()).toEqual([{ name: 'A' }]);
  });

  it('tells the actions of some rows, bulk ones included', async () => {
    const collection = await newCollection();
    await addSample(collection);
    await act(collection, 'Moved car 2', "UPDATE car SET location = 'Attic' WHERE id = 2");
    await act(collection, 'Moved car 3', "UPDATE car SET location = 'Attic' WHERE id = 3");
    const labels = async (ids: number[]) =>
      (await historyOfRows(collection.read.db, [{ table: 'car', ids }])).map(action => action.label);
    expect(await labels([2])).toEqual(['Moved car 2', 'Added a sample']);
    expect(await labels([2, 3])).toEqual(['Moved car 3', 'Moved car 2', 'Added a sample']);
    expect(await labels([99])).toEqual([]);
    expect(await labels([])).toEqual([]);
  });

  it('forgets the oldest beyond what it keeps, never the newest', async () => {
    const collection = await newCollection();
    for (const name of ['A', 'B', 'C', 'D', 'E'])
      await act(collection, name, 'INSERT INTO maker (name) VALUES (?)', name);
    const labels = async () => (await listHistory(collection.read.db)).map(action => action.label).join('');
    pruneHistory(collection.write.sqlite, { actions: 3, rows: 100 });
    expect(await labels()).toBe('EDC');
    pruneHistory(collection.write.sqlite, { actions: 3, rows: 2 });
    expect(await labels()).toBe('ED');
    pruneHistory(collection.write.sqlite, { actions: 3, rows: 0 });
    expect(await labels()).toBe('E');
    expect(collection.write.sqlite.prepare('SELECT count(*) FROM change_row').pluck().get()).toBe(1);
  });
});

/** Statements that each change something in the sample, or are refused whole. */
const statement = fc.oneof(
  fc.tuple(
    fc.constant('UPDATE car SET notes = ?2 WHERE id = ?1'),
    fc.integer({ min: 1, max: 12 }),
    fc.string(),
  ),
  fc.tuple(
    fc.constant('DELETE FROM car WHERE id = ?1 AND ?2 IS ?2'),
    fc.integer({ min: 1, max: 12 }),
    fc.string(),
  ),
  fc.tuple(
    fc.constant('UPDATE casting SET name = ?2 WHERE id = ?1'),
    fc.integer({ min: 1, max: 3 }),
    fc.string(),
  ),
  fc.tuple(
    fc.constant("INSERT INTO condition_check (car_id, checked_on, notes) VALUES (?1, '2026-01-01', ?2)"),
    fc.integer({ min: 1, max: 12 }),
    fc.string(),
  ),
  fc.tuple(
    fc.constant("REPLACE INTO colour (id, name, swatch) VALUES (?1, ?2, '#aabbcc')"),
    fc.integer({ min: 1, max: 3 }),
    fc.constantFrom('Amber', 'Teal', 'Ruby'),
  ),
);

it('undoing everything leads back, redoing everything leads forth, whatever was done', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.boolean(), fc.array(statement, { minLength: 1, maxLength: 4 })), { maxLength: 5 }),
      async actions => {
        // A fresh collection for each run, so that what is found is found again and shrinks.
        const collection = await newCollection();
        await addSample(collection);
        const before = contentOf(collection);
        for (const [bulk, statements] of actions)
          await (bulk ? runBulk : runAction)(collection, 'Did something', at, async () => {
            for (const [sql, id, text] of statements)
              collection.write.sqlite.prepare(sql).run({ 1: id, 2: text.replaceAll('\0', '') });
          }).catch(error => {
            if (!/constraint/.test(String(error))) throw error;
          });
        const after = contentOf(collection);
        const done = (await listHistory(collection.read.db)).filter(action => !action.undone).length - 1;
        const turn = async (once: typeof undo) => {
          for (let i = 0; i < done; i++) await once(collection);
        };
        await turn(undo);
        expect(contentOf(collection)).toEqual(before);
        await turn(redo);
        expect(contentOf(collection)).toEqual(after);
        await turn(undo);
        expect(contentOf(collection)).toEqual(before);
      },
    ),
    { numRuns: 20 },
  );
});

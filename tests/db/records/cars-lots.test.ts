import { describe, expect, it } from 'vitest';
import { naturalKey, readTexts, readWords } from '../../../db/codec.ts';
import type { Collection } from '../../../db/collection.ts';
import { listHistory, runAction } from '../../../db/history/history.ts';
import { undo } from '../../../db/history/undo.ts';
import { carToRow, listCars, rowToCar } from '../../../db/records/cars/cars.ts';
import { insertCars, nextInventoryNumbers, updateCars } from '../../../db/records/cars/cars-write.ts';
import { latestParts, saveCheck } from '../../../db/records/cars/condition-checks.ts';
import { insertLot, lotCosts, setShares } from '../../../db/records/lots/lots.ts';
import { partNames } from '../../../valuation/words.ts';
import { at, newCollection } from '../../helpers/collections.ts';

const addCars = (collection: Collection, numbers: string[]) =>
  runAction(collection, 'Added cars', at, trx =>
    insertCars(
      trx,
      numbers.map(inventoryNumber => ({ inventoryNumber })),
      at,
    ),
  );

describe('cars', () => {
  it('come back as they were written', async () => {
    const collection = await newCollection();
    const [id] = await addCars(collection, ['Q-1']);
    const car = {
      id: id ?? 0,
      inventoryNumber: 'Q-1b',
      lotId: null,
      castingId: null,
      releaseId: null,
      variationId: null,
      asWritten: { casting: 'Whoosh', colour: 'a "red"' },
      grade: 7.5,
      finishState: 'touched up' as const,
      status: 'on the bench' as const,
      location: 'Shelf 2',
      notes: 'line one\nline two',
      cost: 1250,
      costFixed: true,
      ownWorth: { low: 1, mid: 2, high: 3 },
      unread: [{ column: 'Cond.', text: 'beater', field: 'grade' }],
      wornColour: 'Ember',
      wornFinish: 'enamel',
      restorerMark: 'RA',
      boughtOn: '2024-05-04',
      seller: 'Anna',
    };
    const { id: _, ...changes } = car;
    await runAction(collection, 'Changed', at, trx => updateCars(trx, [{ id: car.id, changes }], at));
    expect(await listCars(collection.read.db)).toEqual([car]);
    expect(
      rowToCar({ ...(await collection.read.db.selectFrom('car').selectAll().executeTakeFirstOrThrow()) }),
    ).toEqual(car);
    expect(carToRow({ ownWorth: null, grade: null })).toEqual({
      grade_half: null,
      own_low_minor: null,
      own_mid_minor: null,
      own_high_minor: null,
    });
  });

  it('are changed together where the change is the same, in one action', async () => {
    const collection = await newCollection();
    const ids = await addCars(
      collection,
      Array.from({ length: 300 }, (_, i) => `Q-${i}`),
    );
    await runAction(collection, 'Moved', at, trx =>
      updateCars(
        trx,
        ids.map((id, i) => ({ id, changes: { location: i % 2 ? 'A' : 'B' } })),
        at,
      ),
    );
    const places = (await listCars(collection.read.db)).map(car => car.location);
    expect(places).toEqual(ids.map((_, i) => (i % 2 ? 'A' : 'B')));
    await undo(collection);
    expect((await listCars(collection.read.db)).every(car => car.location === '')).toBe(true);
  });

  it('are read by more ids than SQLite binds at once', async () => {
    const collection = await newCollection();
    const ids = await addCars(collection, ['a', 'b', 'c']);
    const many = [...Array.from({ length: 40_000 }, (_, i) => i + 1000), ...ids];
    expect((await listCars(collection.read.db, { ids: many })).map(car => car.id)).toEqual(ids);
  });
});

describe('the next inventory numbers', () => {
  const next = (collection: Collection, ...rest: [number, (number | null)?, string[]?]) =>
    runAction(collection, 'Asked', at, trx => nextInventoryNumbers(trx, rest[0], rest[1] ?? null, rest[2]));

  it('begin at 0001 and count on with as many digits', async () => {
    const collection = await newCollection();
    expect(await next(collection, 2)).toEqual(['0001', '0002']);
    await addCars(collection, ['Q-098', 'Q-007']);
    expect(await next(collection, 3)).toEqual(['Q-099', 'Q-100', 'Q-101']);
  });

  it('keep to the form of the last one, pass over what is taken and read nothing into words', async () => {
    const collection = await newCollection();
    await addCars(collection, ['Q-2024-500', 'B9', 'B10', 'b11', 'spare']);
    expect(await next(collection, 2)).toEqual(['b12', 'b13']);
    expect(await next(collection, 2, null, ['X-1'])).toEqual(['X-2', 'X-3']);
  });
});

describe('shares of a lot', () => {
  it('change only the cars whose share is another', async () => {
    const collection = await newCollection();
    const ids = await addCars(collection, ['a', 'b', 'c']);
    const share = (minors: number[], fixed = false) =>
      runAction(collection, 'Shared', at, trx =>
        setShares(
          trx,
          ids.map((carId, i) => ({ carId, minor: minors[i] ?? 0, fixed })),
        ),
      );
    await share([3, 2, 1]);
    await share([3, 2, 1]);
    await share([3, 4, 1]);
    expect((await listCars(collection.read.db)).map(car => car.cost)).toEqual([3, 4, 1]);
    // The second sharing changed nothing and left no entry.
    expect((await listHistory(collection.read.db)).map(entry => entry.label)).toEqual([
      'Shared',
      'Shared',
      'Added cars',
    ]);
    const [newest] = await listHistory(collection.read.db);
    const changed = await collection.read.db
      .selectFrom('change_row')
      .select('row_id')
      .where('change_id', '=', newest?.id ?? 0)
      .execute();
    expect(changed).toEqual([{ row_id: ids[1] }]);
    await share([3, 4, 1], true);
    expect((await listCars(collection.read.db)).every(car => car.costFixed)).toBe(true);
  });

  it('come from costs of which two of one kind and note are one', async () => {
    const collection = await newCollection();
    const cost = { kind: 'premium' as const, note: '' };
    const lot = { name: 'L', boughtOn: null, seller: '', currency: 'USD', notes: '' };
    const id = await runAction(collection, 'Added', at, trx =>
      insertLot(
        trx,
        {
          ...lot,
          costs: [
            { ...cost, minor: 100 },
            { ...cost, minor: 23 },
          ],
        },
        at,
      ),
    );
    expect((await lotCosts(collection.read.db)).get(id)).toEqual([{ ...cost, minor: 123 }]);
  });
});

describe('the parts of a car', () => {
  it('are those of its newest check, the later entered of one day', async () => {
    const collection = await newCollection();
    const [one = 0, two = 0] = await addCars(collection, ['a', 'b']);
    const check = (carId: number, checkedOn: string, part: (typeof partNames)[number]) =>
      runAction(collection, 'Checked', at, trx =>
        saveCheck(trx, carId, {
          id: null,
          checkedOn,
          grade: null,
          notes: '',
          parts: [{ part, grade: 5.5, originality: 'missing', note: '' }],
        }),
      );
    await check(one, '2026-02-02', 'roof');
    await check(one, '2026-02-02', 'base');
    await check(one, '2026-01-01', 'axles');
    await check(two, '2020-01-01', 'wheels');
    const state = { grade: 5.5, originality: 'missing' };
    const all = await latestParts(collection.read.db);
    expect(all.get(one)).toEqual([{ part: 'base', ...state }]);
    expect(all.get(two)).toEqual([{ part: 'wheels', ...state }]);
    expect([...(await latestParts(collection.read.db, [two])).keys()]).toEqual([two]);
  });
});

describe('what is kept as text', () => {
  it('reads nothing into damage, and lets no prototype in', () => {
    expect(readWords('["roof","hat",3]', partNames)).toEqual(['roof']);
    expect(readWords('{', partNames)).toEqual([]);
    expect(readTexts('{"a":"b","c":1}')).toEqual({ a: 'b' });
    const read = readTexts('{"__proto__":"x","a":"b"}');
    expect(Object.keys(read)).toEqual(['a']);
    expect(readTexts('[1]')).toEqual({});
  });

  it('sorts numbers inside text by their value', () => {
    const numbers = ['Q-10', 'q-2', 'Q-2b', 'P-100'];
    expect(numbers.sort((a, b) => (naturalKey(a) < naturalKey(b) ? -1 : 1))).toEqual([
      'P-100',
      'q-2',
      'Q-2b',
      'Q-10',
    ]);
  });
});

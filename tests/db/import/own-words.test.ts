import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { runAction } from '../../../db/history/history.ts';
import { undo } from '../../../db/history/undo.ts';
import { settleWords } from '../../../db/records/own-words/settle-words.ts';
import { listWords } from '../../../db/records/own-words/words.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, newLot, take } from './importing.ts';
import { strangersFile } from './strangers.ts';

const lot = newLot('Tin');

/** All that an import writes of cars and sale records, but the instants of entering. */
const contentOf = ({ read }: Collection) =>
  ['car', 'car_candidate', 'condition_check', 'part_grade', 'lot', 'lot_cost', 'disposal', 'sale_record'].map(
    table =>
      (read.sqlite.prepare(`SELECT * FROM "${table}" ORDER BY id`).all() as Record<string, unknown>[]).map(
        ({ created_at: _, updated_at: __, ...row }) => row,
      ),
  );

const carsOf = ({ read }: Collection, columns = 'id, grade_half, as_written, unread') =>
  read.sqlite.prepare(`SELECT ${columns} FROM car ORDER BY id`).all() as {
    id: number;
    grade_half: number | null;
    as_written: string;
    unread: string;
  }[];

const later = '2026-04-01T10:00:00.000Z';
/** The texts of a column that are not understood. */
const waitingIn = (heading: string, unread = '[]') =>
  (JSON.parse(unread) as { column: string; text: string }[])
    .filter(({ column }) => column === heading)
    .map(({ text }) => text);

const cell = (text: string) => `"${text.replaceAll('"', '""')}"`;
const texts = ['beater', 'Beater', 'mint', 'nice', 'VG+', 'C6', '7', ''];
const listOf = (rows: string[][], others = '') =>
  `Car,Cond.,Paint${others}\n${rows.map((row, i) => [`Car ${i}`, ...row].map(cell).join(',')).join('\n')}\n`;
const grades = fc.constantFrom(...texts);
const paints = fc.constantFrom('lt grn', 'mint', 'red', '');
const arbitraryRows = fc.array(fc.tuple(grades, paints), { minLength: 1, maxLength: 12 });
const bases = fc.constantFrom('beater', 'VG+', 'none', '');
/** Rows whose grade, where there is one, is understood in the end. */
const gradesUnderstood = fc.array(
  fc.tuple(fc.constantFrom('beater', 'Beater', 'VG+', 'C6', '7', ''), paints, bases),
  { minLength: 1, maxLength: 12 },
);
/** With a column beside it that may not understand the same text. */
const withBases = fc.array(fc.tuple(grades, paints, bases), {
  minLength: 1,
  maxLength: 12,
});

describe('an answer about a word', () => {
  it('changes all rows with it in its column, and no other', async () => {
    /** Rows whose other column waits for a meaning of the very text. */
    let alike = 0;
    await fc.assert(
      fc.asyncProperty(withBases, fc.constantFrom('beater', 'mint', 'VG+'), async (rows, text) => {
        const collection = await newCollection();
        await take(collection, fileOf(listOf(rows, ',Base paint')), { as: 'lot', lot });
        const before = carsOf(collection, '*');
        const word = { column: 'Cond.', text, field: 'grade', meaning: '3.5' };
        await runAction(collection, 'Said what a text means', at, trx => settleWords(trx, [word], later));
        for (const [i, car] of carsOf(collection, '*').entries()) {
          const [grade] = rows[i] ?? [''];
          if (grade.toLowerCase() !== text.toLowerCase()) expect(car).toEqual(before[i]);
          else {
            expect(car.grade_half).toBe(7);
            expect(car.as_written).toBe(before[i]?.as_written);
            expect(car.unread.includes('Cond.')).toBe(false);
            for (const heading of ['Paint', 'Base paint'])
              expect(waitingIn(heading, car.unread)).toEqual(waitingIn(heading, before[i]?.unread));
            if (waitingIn('Base paint', car.unread).includes(text)) alike++;
          }
        }
      }),
      { numRuns: 15 },
    );
    expect(alike).toBeGreaterThan(0);
  });

  const words = [
    { column: 'Cond.', text: 'beater', field: 'grade', meaning: '2' },
    { column: '*', text: 'VG+', field: 'grade', meaning: '6.5' },
    { column: 'Paint', text: 'lt grn', field: 'colour', meaning: 'Limewash' },
  ];
  /** Collections that heard the words with the first import of a list, and with its second. */
  const heardEarlyAndLate = async (list: string, rows: number) => {
    const [early, late] = [await newCollection(), await newCollection()];
    await take(early, fileOf(list), { as: 'lot', lot, words });
    await take(late, fileOf(list), { as: 'lot', lot });
    const again = await take(late, fileOf(list), { as: 'lot', lot, words });
    expect(again).toMatchObject({ accepted: 0, duplicates: rows });
    return { early, late };
  };

  it('before the import gives the same cars as after it', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryRows, async rows => {
        const { early, late } = await heardEarlyAndLate(listOf(rows), rows.length);
        expect(carsOf(late)).toEqual(carsOf(early));
      }),
      { numRuns: 10 },
    );
  });

  it('lets the column of a field go before another text that means a value of it, sooner or later', async () => {
    const twice = [
      ['beater', 'lt grn', 'VG+'],
      ['beater', 'lt grn', 'beater'],
    ];
    const { early, late } = await heardEarlyAndLate(listOf(twice, ',Base paint'), 2);
    expect(carsOf(late)).toEqual(carsOf(early));
    expect(carsOf(late).map(({ grade_half }) => grade_half)).toEqual([4, 4]);
    await fc.assert(
      fc.asyncProperty(gradesUnderstood, async rows => {
        const all = await heardEarlyAndLate(listOf(rows, ',Base paint'), rows.length);
        const known = 'id, grade_half, as_written';
        expect(carsOf(all.late, known)).toEqual(carsOf(all.early, known));
      }),
      { numRuns: 10 },
    );
  });
});

describe('an import', () => {
  it.each(['purchases.csv', 'sixty.csv', 'german.csv'])(
    'of %s, undone and repeated, gives the same',
    async name => {
      const collection = await newCollection();
      const file = strangersFile(`strangers/${name}`);
      const words = [{ column: '*', text: 'beater', field: 'grade', meaning: '2' }];
      await take(collection, file, { as: 'lot', lot, words });
      const first = contentOf(collection);
      expect(await listWords(collection.read.db)).toHaveLength(1);
      await undo(collection);
      for (const table of ['car', 'lot', 'condition_check', 'disposal', 'word'])
        expect(countOf(collection, table)).toBe(0);
      await take(collection, file, { as: 'lot', lot, words });
      expect(contentOf(collection)).toEqual(first);
      const cars = countOf(collection, 'car');
      const again = await take(collection, file, { as: 'lot', lot, words });
      expect(again.accepted).toBe(0);
      expect(countOf(collection, 'car')).toBe(cars);
    },
  );

  it('of several purchases makes a lot of each, fixes what each car cost, and records what was sold', async () => {
    const collection = await newCollection();
    const file = strangersFile('strangers/purchases.csv');
    const result = await take(collection, file, { as: 'lot', lot, dateOrder: { '*': 'mdy' } });
    expect(result).toMatchObject({ accepted: 10 });
    const { sqlite } = collection.read;
    const lots = sqlite
      .prepare(
        `SELECT lot.name, lot.seller, lot.bought_on, (SELECT sum(minor) FROM lot_cost WHERE lot_id = lot.id) AS cost,
         (SELECT count(*) FROM car WHERE lot_id = lot.id) AS cars FROM lot ORDER BY lower(name)`,
      )
      .raw()
      .all();
    expect(lots).toEqual([
      ['E. Tarrow, 2024-11-02', 'E. Tarrow', '2024-11-02', 7500, 2],
      ['estate sale, 2025-05-30', 'estate sale', '2025-05-30', 3000, 3],
      ['online, 2025-01-13', 'online', '2025-01-13', 1250, 2],
      ['Saltby fair, 2024-03-14', 'Saltby fair', '2024-03-14', 2700, 3],
      ['Tin', '', '2026-03-14', 110_000, 2],
    ]);
    const cars = sqlite
      .prepare('SELECT cost_minor, cost_fixed, bought_on, status, own_mid_minor FROM car ORDER BY id')
      .raw()
      .all();
    expect(cars[0]).toEqual([1200, 1, '2024-03-14', 'kept', 4000]);
    expect(cars[2]).toEqual([900, 1, '2024-03-14', 'sold', null]);
    expect(cars.at(-4)).toEqual([110_000, 1, '2025-07-04', 'kept', 120_000]);
    expect(cars.at(-3)).toEqual([null, 0, null, 'kept', null]);
    expect(sqlite.prepare('SELECT sold_on, proceeds_minor FROM disposal ORDER BY id').raw().all()).toEqual([
      ['2025-06-02', 3100],
      ['2026-01-02', 1900],
    ]);
  });
});

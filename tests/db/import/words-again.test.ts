import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { runAction } from '../../../db/history/history.ts';
import { undo } from '../../../db/history/undo.ts';
import { sayWords, unsayWords } from '../../../db/records/own-words/say-words.ts';
import { countUses } from '../../../db/records/own-words/settle-words.ts';
import { listWords } from '../../../db/records/own-words/words.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, newLot, take } from './importing.ts';

const lot = newLot('Tin');
const tables = [
  'car',
  'condition_check',
  'part_grade',
  'lot',
  'lot_cost',
  'disposal',
  'sale_record',
  'word',
] as const;

/** All that the tables hold, in no order of rows or of texts within a row, and without what numbers them. */
const contentOf = ({ read }: Collection) =>
  tables.map(table =>
    (read.sqlite.prepare(`SELECT * FROM "${table}"`).all() as Record<string, unknown>[])
      .map(({ id: _, created_at: __, updated_at: ___, check_id: ____, ...row }) => {
        for (const texts of ['unread', 'heard'])
          if (typeof row[texts] === 'string')
            row[texts] = (JSON.parse(row[texts]) as unknown[]).map(entry => JSON.stringify(entry)).sort();
        return JSON.stringify(row);
      })
      .sort(),
  );

const say = (collection: Collection, ...words: OwnWord[]) =>
  runAction(collection, 'Said what texts mean', at, trx => sayWords(trx, words, at));
const unsay = async (collection: Collection) => {
  const ids = (await listWords(collection.read.db)).map(({ id }) => id);
  return runAction(collection, 'Removed words', at, trx => unsayWords(trx, ids, { rows: true }, at));
};
const carOf = ({ read }: Collection, at = 1) =>
  read.sqlite.prepare('SELECT * FROM car WHERE id = ?').get(at) as Record<string, unknown>;
const word = (column: string, text: string, field: string, meaning: string): OwnWord => ({
  column,
  text,
  field,
  meaning,
});

const headings = 'Car,Cond.,Paint,Finish,Paid,Est.,Bought on,From,Qty,Sold on,Sold for,Box';
const taken = async (...rows: string[]) => {
  const collection = await newCollection();
  await take(collection, fileOf(`${headings}\n${rows.join('\n')}\n`), { as: 'lot', lot });
  return collection;
};

describe('a text is settled later', () => {
  it('as what was paid: the share of its car, and a part of what the lot cost', async () => {
    const collection = await taken('Silver Kite,,,,a tenner', 'Brackenhall Van,,,,12.50');
    await say(collection, word('Paid', 'a tenner', 'price_paid', '10'));
    expect(carOf(collection)).toMatchObject({ cost_minor: 1000, cost_fixed: 1, unread: '[]' });
    const sum = collection.read.sqlite.prepare('SELECT sum(minor) FROM lot_cost').pluck();
    expect(sum.get()).toBe(2250);
    await unsay(collection);
    expect(carOf(collection)).toMatchObject({ cost_minor: null, cost_fixed: 0 });
    expect(sum.get()).toBe(1250);
  });

  it('in another currency: in a lot of its own', async () => {
    const collection = await taken('Silver Kite,,,,a fiver', 'Brackenhall Van,,,,12.50');
    await say(collection, word('Paid', 'a fiver', 'price_paid', '5 GBP'));
    expect(
      collection.read.sqlite
        .prepare('SELECT lot.currency, cost_minor FROM car JOIN lot ON lot.id = lot_id WHERE car.id = 1')
        .get(),
    ).toEqual({ currency: 'GBP', cost_minor: 500 });
  });

  it('as an estimate, a day, a seller, a place and a note', async () => {
    const collection = await taken('Silver Kite,,,,,sixty or so,Easter 2019,?? Ned,,,,');
    await say(
      collection,
      word('Est.', 'sixty or so', 'own_estimate', '55-65'),
      word('Bought on', 'Easter 2019', 'bought_on', '2019-04-21'),
    );
    expect(carOf(collection)).toMatchObject({
      own_low_minor: 5500,
      own_mid_minor: 6000,
      own_high_minor: 6500,
      bought_on: '2019-04-21',
    });
    const other = await taken('Silver Kite,,red with a story,,lots,,,,,,,');
    await say(other, word('Paid', 'lots', 'notes', 'Paid: lots'));
    expect(carOf(other)).toMatchObject({ notes: 'Paid: lots', cost_minor: null });
    await unsay(other);
    expect(carOf(other).notes).toBe('');
  });

  it('as how many cars a row is of: as many cars, which share what was paid', async () => {
    const collection = await taken('Silver Kite,C6,,,9.01,,,,a pair,,,');
    await say(collection, word('Qty', 'a pair', 'quantity', '2'));
    const cars = collection.read.sqlite
      .prepare('SELECT inventory_number, grade_half, cost_minor, unread FROM car ORDER BY id')
      .all();
    expect(cars).toMatchObject([
      { grade_half: 12, cost_minor: 450, unread: '[]' },
      { grade_half: 12, cost_minor: 451, unread: '[]' },
    ]);
    await undo(collection);
    expect(countOf(collection, 'car')).toBe(1);
  });

  it('as a sale: the day and the price wait for each other', async () => {
    const collection = await taken('Silver Kite,,,,,,,,,2024-05-01,a tenner,');
    expect(countOf(collection, 'disposal')).toBe(0);
    await say(collection, word('Sold for', 'a tenner', 'sold_for', '10'));
    expect(collection.read.sqlite.prepare('SELECT sold_on, proceeds_minor FROM disposal').all()).toEqual([
      { sold_on: '2024-05-01', proceeds_minor: 1000 },
    ]);
    expect(carOf(collection)).toMatchObject({ status: 'sold', unread: '[]' });
    await unsay(collection);
    expect(countOf(collection, 'disposal')).toBe(0);
    expect(carOf(collection).status).toBe('kept');
    const both = await taken('Silver Kite,,,,,,,,,at Easter 2019,a tenner,');
    await say(both, word('Sold on', 'at Easter 2019', 'sold_on', '2019-04-21'));
    expect(countOf(both, 'disposal')).toBe(0);
    await say(both, word('Sold for', 'a tenner', 'sold_for', '10'));
    expect(countOf(both, 'disposal')).toBe(1);
  });
});

const rows = fc.array(
  fc.record({
    grade: fc.constantFrom('beater', 'nice', 'C6', ''),
    finish: fc.constantFrom('repaint', 'as it came', 'original', ''),
    paid: fc.constantFrom('a tenner', 'lots', '12.50', ''),
    bought: fc.constantFrom('Easter 2019', '2024-05-01', ''),
    soldOn: fc.constantFrom('2024-06-01', 'last week', ''),
    soldFor: fc.constantFrom('a tenner', '30', ''),
  }),
  { minLength: 1, maxLength: 6 },
);
const texts = [
  word('Cond.', 'beater', 'grade', '2'),
  word('Cond.', 'nice', 'grade', '7.5'),
  word('Finish', 'repaint', 'finish_state', 'restored'),
  word('Finish', 'as it came', 'finish_state', 'original'),
  word('Paid', 'a tenner', 'price_paid', '10'),
  word('Paid', 'lots', 'price_paid', '100'),
  word('Bought on', 'Easter 2019', 'bought_on', '2019-04-21'),
  word('Sold on', 'last week', 'sold_on', '2024-03-01'),
  word('Sold for', 'a tenner', 'sold_for', '10'),
];
const otherMeanings: Record<string, string> = {
  grade: '5',
  finish_state: 'customised',
  price_paid: '7.77',
  bought_on: '2019-04-22',
  sold_on: '2024-02-02',
  sold_for: '11',
};
const listOf = (made: Record<string, string>[]) =>
  made.map(
    (row, i) =>
      `Car ${i},${row.grade},,${row.finish},${row.paid},,${row.bought},,,${row.soldOn},${row.soldFor},`,
  );

describe('another answer about a word', () => {
  it('leaves every row as if it had been the first one, and no answer at all as if nothing had been said', async () => {
    await fc.assert(
      fc.asyncProperty(rows, fc.constantFrom(...texts), fc.subarray(texts), async (made, first, others) => {
        const other = { ...first, meaning: otherMeanings[first.field] ?? '' };
        const rest = others.filter(one => one !== first);
        const at = await taken(...listOf(made));
        const never = contentOf(at);
        if (rest.length > 0) await say(at, ...rest);
        await say(at, other);
        const atOnce = contentOf(at);
        const again = await taken(...listOf(made));
        if (rest.length > 0) await say(again, ...rest);
        await say(again, first);
        await say(again, other);
        expect(contentOf(again)).toEqual(atOnce);
        await unsay(again);
        expect(contentOf(again)).toEqual(never);
      }),
      { numRuns: 25 },
    );
  });

  it('reaches what an import read by it, and what its owner has changed since stays', async () => {
    const collection = await newCollection();
    const words = [word('Cond.', 'beater', 'grade', '2')];
    const file = fileOf(`${headings}\nSilver Kite,beater\nBrackenhall Van,beater\nCorriemuir Coupe,C2\n`);
    await take(collection, file, { as: 'lot', lot, words });
    const grades = () =>
      collection.read.sqlite.prepare('SELECT grade_half FROM car ORDER BY id').pluck().all();
    expect(grades()).toEqual([4, 4, 4]);
    expect(await countUses(collection.read.db, words)).toEqual([{ cars: 2, sales: 0 }]);
    collection.write.sqlite.prepare('UPDATE car SET grade_half = 9 WHERE id = 2').run();
    await say(collection, word('Cond.', 'beater', 'grade', '3'));
    expect(grades()).toEqual([6, 9, 4]);
  });

  it('about the scale of a column changes all grades that were read on it', async () => {
    const collection = await newCollection();
    const words = [word('Stars', '*', 'grade_scale', '5 stars')];
    const file = fileOf('Car,Stars\nSilver Kite,4\nBrackenhall Van,2\nCorriemuir Coupe,C9\n');
    await take(collection, file, { as: 'lot', lot, words, map: { Stars: 'grade' } });
    const grades = () =>
      collection.read.sqlite.prepare('SELECT grade_half FROM car ORDER BY id').pluck().all();
    expect(grades()).toEqual([16, 8, 18]);
    await say(collection, word('Stars', '*', 'grade_scale', '10'));
    expect(grades()).toEqual([8, 4, 18]);
  });

  it('about a sale record that waited for its finish leaves it out of estimates again', async () => {
    const collection = await newCollection();
    const words = [word('*', 'repaint', 'finish_state', 'restored')];
    const file = fileOf('Car,Sold,Price,Finish\nSilver Kite,2024-05-01,30,repaint\n');
    await take(collection, file, { as: 'sales', words });
    const sale = () => collection.read.sqlite.prepare('SELECT finish_state, excluded FROM sale_record').get();
    expect(sale()).toEqual({ finish_state: 'restored', excluded: 0 });
    await unsay(collection);
    expect(sale()).toEqual({ finish_state: 'original', excluded: 1 });
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { runAction, runBulk } from '../../../db/history/history.ts';
import { redo, undo } from '../../../db/history/undo.ts';
import { search, searchCarIds, searchQuery } from '../../../db/search/search.ts';
import { searchDocuments } from '../../../db/search/search-documents.ts';
import { rebuildSearch } from '../../../db/search/search-index.ts';
import { addSample, at, newCollection } from '../../helpers/collections.ts';

const sampled = async () => {
  const collection = await newCollection();
  await addSample(collection);
  return collection;
};

const act = (collection: Collection, sql: string) =>
  runAction(collection, 'Did something', at, async () => collection.write.sqlite.exec(sql));

/** Every word of the index with the document and column it stands in. */
const wordsOf = ({ write: { sqlite } }: Collection) =>
  searchDocuments.flatMap(({ index }) => {
    sqlite.exec(
      `CREATE VIRTUAL TABLE IF NOT EXISTS temp.${index}_words USING fts5vocab(main, ${index}, instance)`,
    );
    return sqlite
      .prepare(`SELECT '${index}', doc, col, "offset", term FROM ${index}_words ORDER BY doc, col, "offset"`)
      .raw()
      .all();
  });

/** Fails unless the index is what writing it again makes of the rows. */
const expectCurrent = (collection: Collection) => {
  const kept = wordsOf(collection);
  rebuildSearch(collection.write.sqlite);
  expect(kept).toEqual(wordsOf(collection));
};

describe('a query', () => {
  it('quotes every word and matches it from its beginning', () => {
    expect(searchQuery('ruby  Q-0012')).toBe('"ruby"* "Q-0012"*');
    expect(searchQuery('say "hi" NOT car*')).toBe('"say"* """hi"""* "NOT"* "car*"*');
    expect(searchQuery('ru\0by')).toBe('"ru"* "by"*');
  });

  it('takes each word once and sixteen at most', () => {
    expect(searchQuery('ruby ruby')).toBe('"ruby"*');
    const many = Array.from({ length: 40 }, (_, i) => `w${i}`);
    expect(searchQuery(many.join(' '))).toBe(
      many
        .slice(0, 16)
        .map(word => `"${word}"*`)
        .join(' '),
    );
  });

  it('is none where there is no letter or digit', () => {
    for (const text of ['', '   ', '\0', '"', '-- ***', '()']) expect(searchQuery(text)).toBeUndefined();
  });

  it('never fails, whatever is typed', async () => {
    const { db } = (await sampled()).read;
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'binary', maxLength: 30 }), async text => {
        expect(Array.isArray(await search(db, text, 5))).toBe(true);
        await searchCarIds(db, text);
      }),
      { numRuns: 300 },
    );
    for (const text of ['" OR 1', 'car_search:', 'NEAR(a b)', '{number}:q', '^q', "'; DROP TABLE car; --"])
      await search(db, text, 5);
    expect(await searchCarIds(db, 'q')).toHaveLength(12);
  });
});

describe('searching', () => {
  it('finds every kind of thing by the words it shows', async () => {
    const collection = await sampled();
    await act(
      collection,
      `INSERT INTO sale_record (sold_on, price_minor, currency, casting_id, source, identity, as_written)
       VALUES ('2025-01-01', 1200, 'USD', 2, 'Fallowell auctions', 'x', '{"colour":"Marigold"}')`,
    );
    const kinds = async (text: string) => [
      ...new Set((await search(collection.read.db, text, 50)).map(m => m.kind)),
    ];
    expect(await kinds('barrow-2')).toEqual(['car', 'casting', 'variation']);
    expect(await kinds('harrow-2')).toEqual(['car', 'casting', 'variation', 'sale record']);
    expect(await kinds('fallowell mari')).toEqual(['sale record']);
    expect(await kinds('loft fi')).toEqual(['car', 'lot']);
    expect(await kinds('quillon weir ruby')).toEqual(['car', 'variation']);
    expect(await kinds('1970')).toEqual(['casting', 'variation']);
  });

  it('puts the car whose number was typed first', async () => {
    const collection = await sampled();
    await act(collection, "UPDATE car SET inventory_number = '7' WHERE id = 9");
    expect((await search(collection.read.db, '7', 20))[0]).toEqual({ kind: 'car', id: 9 });
    expect((await search(collection.read.db, 'q-00004', 20))[0]).toEqual({ kind: 'car', id: 4 });
  });

  it('finds accents and capitals by plain letters', async () => {
    const collection = await sampled();
    await act(collection, "UPDATE car SET location = 'Étagère Ü2' WHERE id = 5");
    expect(await searchCarIds(collection.read.db, 'etagere u2')).toEqual([5]);
    expect(await searchCarIds(collection.read.db, 'ÉTAG')).toEqual([5]);
  });

  it('finds what a spreadsheet said of a car that is not identified', async () => {
    const collection = await sampled();
    await act(
      collection,
      `INSERT INTO car (inventory_number, as_written, created_at, updated_at)
       VALUES ('X1', '{"casting":"Blue thing","colour":"sky"}', '${at}', '${at}')`,
    );
    expect(await searchCarIds(collection.read.db, 'blue sky')).toEqual([13]);
  });
});

describe('the index', () => {
  it('follows a renamed casting, series, maker, release, lot and variation to the cars', async () => {
    const collection = await sampled();
    const cars = (text: string) => searchCarIds(collection.read.db, text);
    const before = await cars('harrow-2');
    expect(before.length).toBeGreaterThan(0);
    for (const [sql, word, found] of [
      ["UPDATE casting SET name = 'Okapi' WHERE id = 2", 'okapi', before],
      ["UPDATE release SET name = 'Zeppelin' WHERE id = 2", 'zeppelin', before],
      ["UPDATE series SET name = 'Finch'", 'finch', await cars('q')],
      ["UPDATE maker SET name = 'Elm'", 'elm', await cars('q')],
      ["UPDATE lot SET name = 'Attic box'", 'attic box', await cars('q')],
      ["UPDATE variation SET colour = 'Marigold' WHERE id = 1", 'marigold', [1]],
    ] as const) {
      expect(await cars(word)).toEqual([]);
      await act(collection, sql);
      expect(await cars(word)).toEqual(found);
      await undo(collection);
      expect(await cars(word)).toEqual([]);
      await redo(collection);
      expect(await cars(word)).toEqual(found);
      expectCurrent(collection);
    }
  });

  it('is current after bulk work, its undo and its redo, with and without changes to older rows', async () => {
    const collection = await sampled();
    await runBulk(collection, 'Added cars', at, async () =>
      collection.write.sqlite.exec(
        `INSERT INTO car (inventory_number, casting_id, notes, created_at, updated_at)
         SELECT 'N' || id, casting_id, 'newcomer', created_at, updated_at FROM car`,
      ),
    );
    expect(await searchCarIds(collection.read.db, 'newcomer')).toHaveLength(12);
    expectCurrent(collection);
    await runBulk(collection, 'Renamed and added a release', at, async () =>
      collection.write.sqlite.exec(
        `UPDATE casting SET name = 'Okapi' WHERE id = 1; INSERT INTO release (casting_id, name) VALUES (2, 'Zeppelin')`,
      ),
    );
    expect((await search(collection.read.db, 'zeppelin', 5)).map(match => match.kind)).toEqual(['casting']);
    expectCurrent(collection);
    for (const turn of [undo, undo, redo, redo]) {
      await turn(collection);
      expectCurrent(collection);
    }
  });

  it('writes no more documents in bulk work than it touches', async () => {
    const collection = await sampled();
    await act(collection, "UPDATE car SET notes = 'looked at' WHERE id = 5");
    // Documents that were written together have one origin.
    const origins = () =>
      collection.write.sqlite
        .prepare('SELECT id, origin FROM car_search_docsize WHERE id BETWEEN 2 AND 12')
        .all();
    const before = origins();
    expect(new Set(before.map(row => (row as { origin: number }).origin)).size).toBeGreaterThan(1);
    await runBulk(collection, 'Moved one and added another', at, async () =>
      collection.write.sqlite.exec(
        `UPDATE car SET location = 'Attic' WHERE id = 1;
         INSERT INTO car (inventory_number, created_at, updated_at) SELECT 'New', created_at, updated_at FROM car WHERE id = 1`,
      ),
    );
    expect(origins()).toEqual(before);
    await undo(collection);
    expect(origins()).toEqual(before);
    expectCurrent(collection);
  });

  it('is current after a failed bulk work', async () => {
    const collection = await sampled();
    await runBulk(collection, 'Fails', at, async () => {
      collection.write.sqlite.exec("UPDATE casting SET name = 'Okapi'");
      throw new Error('on purpose');
    }).catch(() => {});
    await act(collection, "UPDATE car SET notes = 'still followed' WHERE id = 1");
    expect(await searchCarIds(collection.read.db, 'still followed')).toEqual([1]);
    expectCurrent(collection);
  });

  it('is current whatever is edited', async () => {
    const collection = await sampled();
    const id = fc.integer({ min: 1, max: 12 });
    const word = fc.constantFrom('Okapi', 'Zeppelin two', '', 'Étagère', 'x-1');
    const few = fc.integer({ min: 1, max: 3 });
    const edit = fc.oneof(
      fc.tuple(fc.constant('UPDATE car SET notes = ?2, casting_id = 2 WHERE id = ?1'), id, word),
      fc.tuple(
        fc.constant('UPDATE car SET variation_id = NULL, release_id = NULL, location = ?2 WHERE id = ?1'),
        id,
        word,
      ),
      fc.tuple(fc.constant('DELETE FROM car WHERE id = ?1 AND ?2 IS ?2'), id, word),
      fc.tuple(fc.constant('UPDATE casting SET name = ?1 || ?2 WHERE id = ?1'), few, word),
      fc.tuple(fc.constant('UPDATE release SET name = ?2, year = ?1 WHERE id = ?1'), few, word),
      fc.tuple(fc.constant('UPDATE variation SET colour = ?2 || ?1 WHERE id = ?1'), id, word),
      fc.tuple(fc.constant('INSERT INTO release (casting_id, name) VALUES (?1, ?2)'), few, word),
      fc.tuple(fc.constant('DELETE FROM release WHERE id = 3 + ?1 AND ?2 IS ?2'), few, word),
      fc.tuple(fc.constant('UPDATE lot SET name = ?2, seller = ?1'), few, word),
      fc.tuple(
        fc.constant(
          `INSERT INTO sale_record (sold_on, price_minor, currency, casting_id, notes, identity)
           VALUES ('2025-01-01', 100, 'USD', ?1, ?2, hex(randomblob(8)))`,
        ),
        few,
        word,
      ),
      fc.tuple(fc.constant('UPDATE sale_record SET variation_id = ?1, notes = ?2'), id, word),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 5 }), async edits => {
        await runAction(collection, 'Edited', at, async () => {
          for (const [sql, number, text] of edits)
            collection.write.sqlite.prepare(sql).run({ 1: number, 2: text });
        }).catch(error => {
          if (!/constraint/.test(String(error))) throw error;
        });
        expectCurrent(collection);
        await undo(collection).catch(() => {});
        expectCurrent(collection);
        await redo(collection).catch(() => {});
      }),
      { numRuns: 40 },
    );
  });
});

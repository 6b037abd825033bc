import fc from 'fast-check';
import { expect, it } from 'vitest';
import { tableHashes } from '../../../../db/backup/manifest.ts';
import type { Collection } from '../../../../db/collection.ts';
import { runAction } from '../../../../db/history/history.ts';
import { redo, undo } from '../../../../db/history/undo.ts';
import { mergeCastings } from '../../../../db/records/names/merge-castings.ts';
import { at, newCollection } from '../../../helpers/collections.ts';

const contentOf = ({ write: { sqlite } }: Collection) => {
  const { change, change_row, ...rest } = tableHashes(sqlite);
  return rest;
};

const year = fc.constantFrom(null, 1968, 1971);
const text = fc.constantFrom('', 'Note', 'Another note', 'M2 thread');
const colour = fc.constantFrom('', 'Ember', 'ember ', 'Moss', 'Sky');
const releaseName = fc.constantFrom('Harrow 0', 'Harrow 1', 'HARROW 1', 'Night Harrow');
const place = fc.nat({ max: 40 });

/**
 * A reference of three castings, and what hangs on it by its place; places beyond what there is
 * are taken modulo.
 */
const content = fc.record({
  castings: fc.array(
    fc.record({
      year,
      notes: text,
      parts: fc.uniqueArray(fc.constantFrom('base', 'wheels', 'axles'), { maxLength: 3 }),
      detail: text,
      feature: fc.uniqueArray(fc.constantFrom('red', 'RED', 'tan'), {
        maxLength: 3,
        selector: one => one.toLowerCase(),
      }),
      releases: fc.uniqueArray(fc.record({ name: releaseName, year, changed: text }), {
        maxLength: 3,
        selector: one => `${one.name.toLowerCase()} ${one.year}`,
      }),
    }),
    { minLength: 3, maxLength: 3 },
  ),
  variations: fc.array(fc.record({ release: place, colour, interior: colour, notes: text }), {
    maxLength: 12,
  }),
  cars: fc.array(
    fc.record({
      casting: place,
      variation: fc.option(place),
      candidates: fc.uniqueArray(place, { maxLength: 3 }),
      written: fc.constantFrom(
        {},
        { casting: 'Harrow 1', colour: 'Ember' },
        { casting: 'Harow', colour: 'moss' },
      ),
    }),
    { maxLength: 10 },
  ),
  sales: fc.array(
    fc.record({
      casting: place,
      variation: fc.option(place),
      day: fc.constantFrom('2025-01-02', '2025-03-04'),
      price: fc.constantFrom(1000, 2000),
    }),
    { maxLength: 8 },
  ),
  beliefs: fc.array(fc.record({ casting: place, variation: fc.option(place) }), { maxLength: 4 }),
  photos: fc.array(place, { maxLength: 4 }),
  spares: fc.array(place, { maxLength: 3 }),
  members: fc.array(fc.record({ of: fc.constantFrom('casting', 'release', 'variation'), place }), {
    maxLength: 5,
  }),
  settled: fc.uniqueArray(
    fc.record({ text: fc.constantFrom('Harow', 'Harrow 2', 'Arrow'), release: place }),
    {
      maxLength: 3,
      selector: one => one.text,
    },
  ),
});

type Content = typeof content extends fc.Arbitrary<infer T> ? T : never;

const fill = (collection: Collection, made: Content): Promise<void> =>
  runAction(collection, 'Filled the reference', at, async () => {
    const { sqlite } = collection.write;
    const insert = (sql: string, ...values: unknown[]) => {
      const { changes, lastInsertRowid } = sqlite.prepare(sql).run(...values);
      return changes === 0 ? null : Number(lastInsertRowid);
    };
    const maker = insert('INSERT INTO maker (name) VALUES (?)', 'Quillon Toys');
    const series = insert('INSERT INTO series (maker_id, name) VALUES (?, ?)', maker, 'Weir');
    const releases: { id: number; casting: number }[] = [];
    const castings = made.castings.map((casting, i) => {
      const id = insert(
        'INSERT INTO casting (series_id, name, first_year, notes) VALUES (?, ?, ?, ?)',
        series,
        `Harrow ${i}`,
        casting.year,
        casting.notes,
      )!;
      for (const part of casting.parts)
        insert(
          'INSERT INTO casting_part (casting_id, part, detail) VALUES (?, ?, ?)',
          id,
          part,
          casting.detail,
        );
      for (const value of casting.feature)
        insert(
          'INSERT INTO casting_feature (casting_id, feature, value) VALUES (?, ?, ?)',
          id,
          'interior',
          value,
        );
      for (const release of casting.releases) {
        const releaseId = insert(
          'INSERT INTO release (casting_id, name, year, changed_part) VALUES (?, ?, ?, ?)',
          id,
          release.name,
          release.year,
          release.changed,
        )!;
        releases.push({ id: releaseId, casting: id });
      }
      return id;
    });
    const of = <T>(list: readonly T[], at: number | null): T | null =>
      at === null || list.length === 0 ? null : list[at % list.length]!;
    const variations: { id: number; release: number; casting: number }[] = [];
    for (const { release, colour: body, interior, notes } of made.variations) {
      const home = of(releases, release);
      const id =
        home &&
        insert(
          'INSERT OR IGNORE INTO variation (release_id, colour, interior, notes) VALUES (?, ?, ?, ?)',
          home.id,
          body,
          interior,
          notes,
        );
      if (home && id) variations.push({ id, release: home.id, casting: home.casting });
    }
    made.cars.forEach((car, i) => {
      const variation = of(variations, car.variation);
      const casting = variation?.casting ?? of(castings, car.casting);
      const id = insert(
        `INSERT INTO car (inventory_number, casting_id, release_id, variation_id, as_written, created_at, updated_at)
         VALUES (?, ?, ?, ?, ?, ?, ?)`,
        `Q-${i}`,
        casting,
        variation?.release ?? null,
        variation?.id ?? null,
        JSON.stringify(car.written),
        at,
        at,
      );
      const fitting = variations.filter(one => one.casting === casting);
      if (!variation)
        for (const candidate of car.candidates) {
          const fit = of(fitting, candidate);
          if (fit)
            insert('INSERT OR IGNORE INTO car_candidate (car_id, variation_id) VALUES (?, ?)', id, fit.id);
        }
    });
    made.sales.forEach((sale, i) => {
      const variation = of(variations, sale.variation);
      insert(
        `INSERT INTO sale_record (sold_on, price_minor, currency, casting_id, variation_id, identity) VALUES (?, ?, ?, ?, ?, ?)`,
        sale.day,
        sale.price,
        'USD',
        variation?.casting ?? of(castings, sale.casting),
        variation?.id ?? null,
        `made ${i}`,
      );
    });
    for (const belief of made.beliefs) {
      const variation = of(variations, belief.variation);
      insert(
        `INSERT INTO belief (casting_id, variation_id, grade_half, low_minor, high_minor, currency, believed_on)
         VALUES (?, ?, 16, 100, 200, 'USD', '2025-01-01')`,
        variation ? null : of(castings, belief.casting),
        variation?.id ?? null,
      );
    }
    made.photos.forEach((place, i) => {
      const variation = of(variations, place);
      if (variation)
        insert(
          `INSERT INTO photo (sha256, format, bytes, width, height, variation_id, added_at) VALUES (?, 'png', 1, 1, 1, ?, ?)`,
          `${i}`,
          variation.id,
          at,
        );
    });
    made.spares.forEach((spare, i) => {
      insert('INSERT INTO part (name, casting_id) VALUES (?, ?)', `Wheel ${i}`, of(castings, spare));
    });
    const set = insert("INSERT INTO casting_set (name, made_at) VALUES ('Wanted', ?)", at);
    for (const member of made.members) {
      const id = {
        casting: of(castings, member.place),
        release: of(releases, member.place)?.id ?? null,
        variation: of(variations, member.place)?.id ?? null,
      }[member.of];
      if (id !== null)
        insert(`INSERT INTO casting_set_member (set_id, ${member.of}_id) VALUES (?, ?)`, set, id);
    }
    for (const { text: written, release } of made.settled) {
      const home = of(releases, release);
      const meant = of(variations, release);
      if (meant)
        insert(
          'INSERT OR IGNORE INTO settled_variation (casting_id, variation_id, seen, settled_at) VALUES (?, ?, ?, ?)',
          meant.casting,
          meant.id,
          written,
          at,
        );
      insert(
        'INSERT INTO settled_name (text, means, casting_id, release_id, settled_at) VALUES (?, ?, ?, ?, ?)',
        written,
        home ? 'release' : 'casting',
        home?.casting ?? castings[0],
        home?.id ?? null,
        at,
      );
    }
  });

const counted = ({ write: { sqlite } }: Collection) =>
  Object.fromEntries(
    ['car', 'sale_record', 'belief', 'photo'].map(table => [
      table,
      sqlite.prepare(`SELECT count(*) FROM ${table}`).pluck().get(),
    ]),
  );

/** Rows whose casting, release and variation do not belong together, or that still name what is gone. */
const astray = ({ write: { sqlite } }: Collection, gone: number) => ({
  castings: sqlite.prepare('SELECT count(*) FROM casting WHERE id = ?').pluck().get(gone),
  cars: sqlite
    .prepare(
      `SELECT count(*) FROM car LEFT JOIN variation v ON v.id = car.variation_id LEFT JOIN release r ON r.id = v.release_id
       WHERE car.casting_id = ? OR (v.id IS NOT NULL AND (car.casting_id <> r.casting_id OR car.release_id IS NOT r.id))`,
    )
    .pluck()
    .get(gone),
  sales: sqlite
    .prepare(
      `SELECT count(*) FROM sale_record s LEFT JOIN variation v ON v.id = s.variation_id LEFT JOIN release r ON r.id = v.release_id
       WHERE s.casting_id = ? OR (v.id IS NOT NULL AND s.casting_id <> r.casting_id)`,
    )
    .pluck()
    .get(gone),
  candidates: sqlite
    .prepare(
      `SELECT count(*) FROM car_candidate c JOIN car ON car.id = c.car_id WHERE car.variation_id IS NOT NULL`,
    )
    .pluck()
    .get(),
  settled: sqlite
    .prepare(
      `SELECT count(*) FROM settled_variation s JOIN variation v ON v.id = s.variation_id JOIN release r ON r.id = v.release_id
       WHERE s.casting_id <> r.casting_id`,
    )
    .pluck()
    .get(),
  spares: sqlite.prepare('SELECT count(*) FROM part WHERE casting_id IS NULL').pluck().get(),
  broken: sqlite.pragma('foreign_key_check'),
});

it('castings that are merged keep all that hangs on them, and a merge that is undone leaves nothing', async () => {
  let merged = 0;
  await fc.assert(
    fc.asyncProperty(content, fc.boolean(), async (made, keepName) => {
      const collection = await newCollection();
      await fill(collection, made);
      const before = contentOf(collection);
      const counts = counted(collection);
      await runAction(collection, 'Merged two castings', at, trx =>
        mergeCastings(trx, { into: 2, from: 1, keepName }, at),
      );
      expect(counted(collection)).toEqual(counts);
      expect(astray(collection, 1)).toEqual({
        castings: 0,
        cars: 0,
        sales: 0,
        candidates: 0,
        settled: 0,
        spares: 0,
        broken: [],
      });
      const after = contentOf(collection);
      await undo(collection);
      expect(contentOf(collection)).toEqual(before);
      await redo(collection);
      expect(contentOf(collection)).toEqual(after);
      merged++;
    }),
    { numRuns: 30 },
  );
  expect(merged).toBeGreaterThanOrEqual(30);
});

it('moves the rows of every table that refers to a casting, a release or a variation', async () => {
  const { write } = await newCollection();
  const tables = write.sqlite
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND sql NOT LIKE 'CREATE VIRTUAL%'")
    .pluck()
    .all() as string[];
  const referring = tables.flatMap(table =>
    (write.sqlite.pragma(`foreign_key_list("${table}")`) as { table: string; from: string }[])
      .filter(key => ['casting', 'release', 'variation'].includes(key.table))
      .map(key => `${table}.${key.from}`),
  );
  // A new one has to be moved by a merge, and drawn by the property above.
  expect(referring.sort()).toEqual([
    'belief.casting_id',
    'belief.variation_id',
    'car.casting_id',
    'car.release_id',
    'car.variation_id',
    'car_candidate.variation_id',
    'casting_feature.casting_id',
    'casting_part.casting_id',
    'casting_set_member.casting_id',
    'casting_set_member.release_id',
    'casting_set_member.variation_id',
    'part.casting_id',
    'photo.variation_id',
    'release.casting_id',
    'sale_record.casting_id',
    'sale_record.variation_id',
    'settled_name.casting_id',
    'settled_name.release_id',
    'settled_variation.casting_id',
    'settled_variation.variation_id',
    'variation.release_id',
  ]);
});

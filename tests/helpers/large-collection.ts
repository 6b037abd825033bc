import type { Collection } from '../../db/collection.ts';
import { runBulk } from '../../db/history/history.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { sampleColours } from './pictures/sample-colours.ts';

const at = '2026-03-14T09:26:53.000Z';

const bodies = ['saloon', 'coupé', 'estate', 'pick-up', 'van', 'roadster'];
const names = [
  'Harrow',
  'Bellweather',
  'Larkspur',
  'Fallowell',
  'Oxbow',
  'Thornbury',
  'Quince',
  'Marlow',
  'Vesper',
];
const faults = [
  'chipped nose',
  'bent front axle',
  'crazed glazing',
  'flat rear wheel',
  'scratched roof',
  'toning',
];

/**
 * Makes a collection of many cars in a folder, as such a collection is spread: 4 series of 36 castings in 7
 * colours and two rear ends, 200 lots, locations and notes of a dozen words, two sale records for every three
 * cars. Always the same. Prices have
 * nothing to do with grades, so that no work on any car pays; with `pays` they rise with grade, and work on many does.
 * With `sales` there are so many sale records.
 */
export const makeLargeCollection = async (
  dir: string,
  cars: number,
  { pays = false, sales }: { pays?: boolean; sales?: number } = {},
): Promise<Collection> => {
  await createCollection(dir, { at, reportingCurrency: 'USD' });
  const collection = await openCollection(dir, { at, host: 'command line' });
  const { sqlite } = collection.write;
  const insert = (sql: string) => {
    const statement = sqlite.prepare(sql);
    return (...values: unknown[]) => Number(statement.run(...values).lastInsertRowid);
  };
  await runBulk(collection, 'Filled a large collection', at, async () => {
    const maker = insert('INSERT INTO maker (name) VALUES (?)')('Quillon Toys');
    const series = insert('INSERT INTO series (maker_id, name) VALUES (?, ?)');
    const casting = insert(
      'INSERT INTO casting (series_id, name, body_type, first_year) VALUES (?, ?, ?, ?)',
    );
    const release = insert('INSERT INTO release (casting_id, name, year) VALUES (?, ?, ?)');
    const variation = insert(
      'INSERT INTO variation (release_id, colour, rear_end, interior, base_paint) VALUES (?, ?, ?, ?, ?)',
    );
    const known: [number, number, number][] = [];
    const ranges = ['Weir', 'Finch', 'Siskin', 'Dunnock'].map(name => series(maker, name));
    for (let i = 0; i < 144; i++) {
      const castingId = casting(ranges[i % 4], `${names[i % 9]} ${100 + i}`, bodies[i % 6], 1966 + (i % 10));
      const releaseId = release(castingId, `${names[(i * 5) % 9]} ${200 + i}`, 1966 + (i % 10));
      for (const colour of sampleColours)
        for (const rear of ['open grille', 'plain panel'])
          known.push([
            castingId,
            releaseId,
            variation(releaseId, colour, rear, i % 2 ? 'white' : 'tan', i % 3 ? 'none' : 'full'),
          ]);
    }
    const lot = insert('INSERT INTO lot (name, seller, currency, created_at) VALUES (?, ?, ?, ?)');
    const lots = Array.from({ length: 200 }, (_, i) =>
      lot(`Lot ${i + 1} from ${names[i % 9]}`, 'estate sale', 'USD', at),
    );
    const car = insert(
      `INSERT INTO car (inventory_number, lot_id, casting_id, release_id, variation_id, grade_half, location, notes,
       created_at, updated_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    const sale = insert(
      `INSERT INTO sale_record (sold_on, price_minor, currency, casting_id, variation_id, grade_half, source, identity)
       VALUES (?, ?, 'USD', ?, ?, ?, ?, ?)`,
    );
    const isSold = (i: number): boolean =>
      sales === undefined
        ? i % 3 !== 0
        : Math.floor(((i + 1) * sales) / cars) > Math.floor((i * sales) / cars);
    for (let i = 0; i < cars; i++) {
      const [castingId, releaseId, variationId] = known[(i * 7_919) % known.length]!;
      const notes = `${faults[i % 6]}, ${faults[(i * 7) % 6]}; box ${i % 311}, to be looked at again when the shelf is sorted`;
      const number = `Q-${String(i + 1).padStart(6, '0')}`;
      car(
        number,
        lots[i % 200],
        castingId,
        releaseId,
        variationId,
        2 + (i % 19),
        `Shelf ${i % 50} row ${i % 7}`,
        notes,
        at,
        at,
      );
      if (isSold(i))
        sale(
          `20${18 + (i % 8)}-05-0${1 + (i % 9)}`,
          pays
            ? Math.round((2_000 + ((castingId * 997) % 9_000)) * 1.16 ** (2 + (i % 19)))
            : 500 + ((i * 37) % 9_000),
          castingId,
          variationId,
          2 + (i % 19),
          `Fair ${i % 40}`,
          `s${i}`,
        );
    }
  });
  return collection;
};

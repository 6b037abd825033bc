import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Collection } from '../../db/collection.ts';
import { CollectionError } from '../../db/errors.ts';
import { runBulk } from '../../db/history/history.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { sampleColours } from './pictures/sample-colours.ts';

/** The time at which tests happen unless they say otherwise. */
export const at = '2026-03-14T09:26:53.000Z';

/** An empty folder that goes when the test is over. */
export const temporaryFolder = (): string => {
  const dir = mkdtempSync(join(tmpdir(), 'playworn-test-'));
  onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
  return dir;
};

/** Opens a collection and closes it when the test is over. */
export const opened = async (dir: string, options: Partial<Parameters<typeof openCollection>[1]> = {}) => {
  const collection = await openCollection(dir, { at, host: 'command line', ...options });
  onTestFinished(async () => {
    await collection.close({ at });
  });
  return collection;
};

/** A new, empty collection in a folder of its own, open. */
export const newCollection = async (): Promise<Collection> => {
  const dir = temporaryFolder();
  await createCollection(dir, { at, reportingCurrency: 'USD' });
  return opened(dir);
};

/**
 * Adds one maker and series, `castings` castings in every sample colour, one lot and `cars` cars, as
 * one bulk action.
 */
export const addSample = (collection: Collection, { castings = 3, cars = 12 } = {}): Promise<void> =>
  runBulk(collection, 'Added a sample', at, async () => {
    const { sqlite } = collection.write;
    const insert = (sql: string) => {
      const statement = sqlite.prepare(sql);
      return (...values: unknown[]) => Number(statement.run(...values).lastInsertRowid);
    };
    const maker = insert('INSERT INTO maker (name) VALUES (?)')('Quillon Toys');
    const series = insert('INSERT INTO series (maker_id, name) VALUES (?, ?)')(maker, 'Weir');
    const addCasting = insert('INSERT INTO casting (series_id, name, length_mm) VALUES (?, ?, ?)');
    const addRelease = insert('INSERT INTO release (casting_id, name, year) VALUES (?, ?, ?)');
    const addVariation = insert('INSERT INTO variation (release_id, colour, interior) VALUES (?, ?, ?)');
    const variations: [number, number, number][] = [];
    for (let i = 0; i < castings; i++) {
      const casting = addCasting(series, `Harrow ${i + 1}`, 60 + i / 3);
      const release = addRelease(casting, `Barrow ${i + 1}`, 1968 + i);
      for (const colour of sampleColours)
        variations.push([casting, release, addVariation(release, colour, 'white')]);
    }
    const lot = insert('INSERT INTO lot (name, currency, created_at) VALUES (?, ?, ?)')(
      'Loft find',
      'USD',
      at,
    );
    const addCar = insert(
      `INSERT INTO car (inventory_number, lot_id, casting_id, release_id, variation_id, notes, location, created_at,
       updated_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    );
    for (let i = 0; i < cars; i++) {
      const [casting, release, variation] = variations[i % variations.length]!;
      const number = `Q-${String(i + 1).padStart(5, '0')}`;
      const notes = `Chipped nose, bent axle ${(i * 7919) % 20_000} to be straightened`;
      addCar(number, lot, casting, release, variation, notes, `Shelf ${i % 50}`, at, at);
    }
  });

/** The CollectionError that work ends in; fails when it ends otherwise. */
export const collectionErrorOf = async (work: () => Promise<unknown>): Promise<CollectionError> => {
  try {
    await work();
  } catch (error) {
    if (error instanceof CollectionError) return error;
    throw error;
  }
  throw new Error('It went well, where it should have been refused');
};

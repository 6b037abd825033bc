import { beforeEach, describe, expect, it, vi } from 'vitest';
import { recordReads } from '../../../../db/reads.ts';
import { listCars } from '../../../../db/records/cars/cars.ts';
import { readReportingCurrency } from '../../../../db/records/collection/settings.ts';
import { carFigures } from '../../../../electron/api/figures/figures.ts';
import { heldFigures, mostSpare } from '../../../../electron/api/figures/held-figures.ts';
import { marketToday } from '../../../../electron/api/figures/market.ts';
import { referenceIndex } from '../../../../electron/api/reference/reference-index.ts';
import { BoundedMap, slot } from '../../../../electron/api/session/cache.ts';
import { decideCar } from '../../../../valuation/decision/decide-car.ts';
import { recommendCar } from '../../../../valuation/decision/recommend-car.ts';
import { valueCar } from '../../../../valuation/worth/value-car.ts';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

vi.mock('../../../../valuation/worth/value-car.ts', { spy: true });
vi.mock('../../../../valuation/decision/decide-car.ts', { spy: true });
vi.mock('../../../../valuation/decision/recommend-car.ts', { spy: true });

beforeEach(() => {
  vi.clearAllMocks();
});

/**
 * Cars that differ in grade and in what their owner says they are worth, so that none
 * shares another's figures.
 */
const collectionOf = async (count: number) => {
  const { session, api } = await newCollectionService();
  const { variations } = await addReference(api);
  const ids: number[] = [];
  for (let from = 0; from < count; from += 1000)
    ids.push(
      ...(
        await api.cars.create({
          lotId: null,
          cars: Array.from({ length: Math.min(1000, count - from) }, (_, i) => ({
            variationId: variations.emberTwin,
            grade: 5,
            ownWorth: { low: 100 + from + i, mid: 200 + from + i, high: 300 + from + i },
          })),
        })
      ).ids,
    );
  return { session, api, ids };
};

describe('what a session remembers', () => {
  it('values one car after the edit of one cell among thousands', async () => {
    const { session, api, ids } = await collectionOf(3000);
    const db = session.collection!.read.db;
    const before = await carFigures(session, await listCars(db));
    expect(before.size).toBe(3000);
    const [first] = ids as [number];
    vi.clearAllMocks();
    await api.cars.update({ changes: [{ id: first, patch: { grade: 8 } }] });
    const after = await carFigures(session, await listCars(db));
    expect(vi.mocked(valueCar)).toHaveBeenCalledTimes(1);
    expect(after.get(first)).not.toEqual(before.get(first));
    for (const id of ids.slice(1)) expect(after.get(id)).toEqual(before.get(id));
  });

  it('stays under its bound after ten thousand edits, and lets go of cars that are gone', async () => {
    const { session, api, ids } = await collectionOf(1000);
    const cars = await listCars(session.collection!.read.db);
    for (let round = 1; round <= 10; round += 1) {
      await api.cars.update({
        changes: ids.map(id => ({
          id,
          patch: { ownWorth: { low: 1, mid: 10_000 * round + id, high: 1_000_000 } },
        })),
      });
      await carFigures(session, cars);
    }
    const held = session.cache.of(heldFigures);
    expect(held?.packed.size).toBeLessThanOrEqual(1000 + mostSpare);
    expect(held?.places.size).toBe(held?.packed.size);
    expect(held?.cars.size).toBe(1000);
    await api.cars.remove({ ids: ids.slice(0, 400) });
    await carFigures(session, await listCars(session.collection!.read.db));
    expect(held?.cars.size).toBe(600);
  });

  it('depends on what was read: a check reaches the car, a name of the owner does not reach the market', async () => {
    const { session, api, ids } = await collectionOf(3);
    const db = session.collection!.read.db;
    const market = await marketToday(session);
    const reference = await referenceIndex(session);
    const [car] = ids as [number];
    const before = await carFigures(session, await listCars(db));

    await api.collection.saveSettings({ owner: 'A. Collector' });
    expect(await marketToday(session)).toBe(market);
    expect(await referenceIndex(session)).toBe(reference);

    await api.decisions.savePlan({
      carId: car,
      targetGrade: 9,
      hours: { low: 1, likely: 2, high: 3 },
    });
    const after = await carFigures(session, await listCars(db));
    expect(after.get(car)?.weighed.offers.find(({ option }) => option === 'restore')?.hours).toBe(2);
    expect(after.get(car)).not.toBe(before.get(car));
    expect(await marketToday(session)).toBe(market);

    await api.reference.saveColour({ name: 'Ember', swatch: '#aa3322' });
    expect((await referenceIndex(session)).swatchOf('Ember')).toBe('#aa3322');
    expect(await marketToday(session)).toBe(market);

    await api.collection.saveRate({ currency: 'EUR', on: '2026-01-02', rate: '1.08' });
    const withRate = await marketToday(session);
    expect(withRate).not.toBe(market);
    await api.collection.undo();
    expect(await marketToday(session)).not.toBe(withRate);
  });

  it('refits the market where its own setting is written', async () => {
    const { session, api } = await newCollectionService();
    const market = await marketToday(session);
    await api.collection.saveSettings({ reportingCurrency: 'EUR' });
    const refitted = await marketToday(session);
    expect(refitted).not.toBe(market);
    expect(refitted.reportingCurrency).toBe('EUR');
  });

  it('notes tables and the one setting that a query asks for, and refuses what it cannot see', async () => {
    const { session } = await newCollectionService();
    const reads = new Set<string>();
    const db = recordReads(session.collection!.read.db, reads);
    await readReportingCurrency(db);
    expect([...reads]).toEqual(['setting reporting-currency']);
    await listCars(db);
    expect([...reads]).toContain('car');
    const { sql } = await import('kysely');
    await expect(sql`SELECT id FROM lot`.execute(db)).rejects.toThrow(/cannot be told/);
  });

  it('is gone when the collection closes', async () => {
    const { session, api } = await newCollectionService();
    const place = slot(() => ({ made: 0 }));
    session.cache.of(place).made = 7;
    expect(session.cache.of(place).made).toBe(7);
    await session.close();
    expect(session.cache.of(place).made).toBe(0);
    expect((await api.collection.state()).open).toBe(false);
  });

  it('holds no more than its bound, the newest', () => {
    const map = new BoundedMap<number, string>(3);
    for (let i = 0; i < 10_000; i += 1) map.set(i, String(i));
    expect([...map.keys()]).toEqual([9997, 9998, 9999]);
    map.set(9997, 'again');
    map.set(10_000, 'new');
    expect([...map.keys()]).toEqual([9999, 9997, 10_000]);
  });
});

describe('a car’s page', () => {
  it('values the car once and reads each thing once', async () => {
    const { session, api, ids } = await collectionOf(2);
    const [id] = ids as [number];
    await marketToday(session);
    await referenceIndex(session);
    const [listed] = await api.cars.list({});
    vi.clearAllMocks();
    const prepared = vi.spyOn(session.collection!.read.sqlite, 'prepare');
    const page = await api.cars.get({ id });
    expect(vi.mocked(valueCar)).toHaveBeenCalledTimes(1);
    expect(vi.mocked(decideCar)).toHaveBeenCalledTimes(1);
    expect(vi.mocked(recommendCar)).not.toHaveBeenCalled();
    // Settings are read one by one, each by the same text.
    const statements = prepared.mock.calls.map(([text]) => text).filter(text => !text.includes('"setting"'));
    expect(statements.length).toBeGreaterThan(10);
    expect(statements.filter((text, i) => statements.indexOf(text) !== i)).toEqual([]);
    expect(page).toMatchObject({
      worths: listed?.worths,
      recommendation: listed?.recommendation,
      probability: listed?.probability,
      expectedGain: listed?.expectedGain,
    });
  });
});

import type { Transaction } from 'kysely';
import { describe, expect, it } from 'vitest';
import { brokenRule } from '../../../db/constraints.ts';
import { runAction } from '../../../db/history/history.ts';
import { insertCars } from '../../../db/records/cars/cars-write.ts';
import { insertLot } from '../../../db/records/lots/lots.ts';
import type { Schema } from '../../../db/schema.ts';
import { at, newCollection } from '../../helpers/collections.ts';

describe('a row that the tables refuse', () => {
  const refusedWith = async (work: () => Promise<unknown>) => {
    const error = await work().then(
      () => undefined,
      (thrown: unknown) => thrown,
    );
    return error instanceof Error ? brokenRule(error) : undefined;
  };

  it('is told by the rule that it broke, as SQLite itself names it', async () => {
    const collection = await newCollection();
    const act = (work: (trx: Transaction<Schema>) => Promise<unknown>) =>
      refusedWith(() => runAction(collection, 'Tried', at, work));
    expect(
      await act(trx => insertCars(trx, [{ inventoryNumber: 'A-1' }, { inventoryNumber: 'a-1' }], at)),
    ).toEqual({ kind: 'not-unique', thing: 'inventory-number' });
    expect(await act(trx => insertCars(trx, [{ inventoryNumber: 'A-1', castingId: 99 }], at))).toEqual({
      kind: 'reference',
    });
    expect(await act(trx => insertCars(trx, [{ inventoryNumber: 'A-1', cost: -1 }], at))).toEqual({
      kind: 'value',
    });
    const lot = {
      name: 'Loft',
      boughtOn: null,
      seller: '',
      currency: 'USD',
      notes: '',
      costs: [],
    };
    expect(
      await act(async trx => {
        await insertLot(trx, lot, at);
        await insertLot(trx, lot, at);
      }),
    ).toEqual({ kind: 'not-unique', thing: 'lot-name' });
  });

  it('is not mistaken for any other failure', () => {
    expect(brokenRule(new Error('UNIQUE constraint failed: car.inventory_number'))).toBeUndefined();
    const other = Object.assign(new Error('UNIQUE constraint failed: setting.key'), {
      code: 'SQLITE_CONSTRAINT_UNIQUE',
    });
    expect(brokenRule(other)).toEqual({ kind: 'not-unique', thing: null });
  });
});

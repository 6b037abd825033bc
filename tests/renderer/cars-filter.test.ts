import { describe, expect, it } from 'vitest';
import type { CarRow } from '../../electron/api/views.ts';
import { bulkChange } from '../../renderer/screens/cars/list/bulk-change.ts';
import { filterCars, filterIn, isOpen, queryOf } from '../../renderer/screens/cars/list/car-filter.ts';
import { totalsOf } from '../../renderer/screens/cars/list/totals.ts';
import { orderWall } from '../../renderer/screens/cars/list/wall-order.ts';
import { carRow } from '../helpers/weighed-car.ts';

const worth = (mid: number) => ({
  low: mid - 10,
  mid,
  high: mid + 10,
  logMean: 1,
  logSd: 1,
  sharedSd: 1,
  own: false,
  attainable: true,
});

const car = (id: number, { features, ...changes }: Partial<CarRow> = {}): CarRow =>
  carRow(id, {
    inventoryNumber: `K-${id}`,
    lotId: 1,
    lot: 'Attic box',
    castingId: 7,
    casting: 'Larkhythe',
    releaseName: 'Larkhythe',
    releaseYear: 1969,
    series: 'Harbour',
    variationId: 70,
    features: features ?? { ...carRow(id).features, colour: 'Ember' },
    variation: 'Ember',
    rarity: 'common',
    cost: 1000,
    costCurrency: 'USD',
    photoCount: 1,
    worths: { asFound: worth(4000), restored: null, originalFinish: null, cost: null },
    expectedGain: 500,
    ...changes,
  });

const ids = (cars: readonly CarRow[]) => cars.map(({ id }) => id);
const shown = (cars: readonly CarRow[], search: string) => ids(filterCars(cars, filterIn(search)));

describe('the filter in the address', () => {
  it('comes back from its query as it was', () => {
    const search =
      'lot=3,4&series=Harbour&series=Night%2C+late&casting=3&finish=original,touched+up&grade=7-8.5,none&status=kept&recommendation=not-enough-evidence&rarity=rare&show=ungraded&text=roof+rack';
    const filter = filterIn(search);
    expect(filter.lots).toEqual([3, 4]);
    expect(filter.series).toEqual(['Harbour', 'Night, late']);
    expect(filter.finish).toEqual(['original', 'touched up']);
    expect(filterIn(queryOf(filter).toString())).toEqual(filter);
  });
  it('leaves out what it does not know, and an open one says nothing', () => {
    const filter = filterIn('finish=gilded&casting=x&show=__proto__&grade=best&status=lost');
    expect(isOpen(filter)).toBe(true);
    expect(queryOf(filterIn('')).toString()).toBe('');
  });
});

describe('the cars that a filter lets through', () => {
  const cars = [
    car(1),
    car(2, { grade: 9, lotId: 2, lot: 'Fair', finishState: 'restored' }),
    car(3, {
      grade: null,
      castingId: null,
      variationId: null,
      identified: 'no',
      photoCount: 0,
      rarity: null,
    }),
    car(4, { variationId: null, identified: 'casting', location: 'Tray B', rarity: null }),
    car(5, { status: 'sold', grade: null, photoCount: 0 }),
    car(6, { grade: 7, worths: { asFound: null, restored: null, originalFinish: null, cost: null } }),
  ];
  it('goes by lot, grade band, finish, casting and words', () => {
    expect(shown(cars, 'lot=2')).toEqual([2]);
    expect(shown(cars, 'grade=9-10,none')).toEqual([2, 3, 5]);
    expect(shown(cars, 'grade=7-8.5')).toEqual([6]);
    expect(shown(cars, 'finish=restored')).toEqual([2]);
    expect(shown(cars, 'casting=7&variation=70')).toEqual([1, 2, 5, 6]);
    expect(shown(cars, 'text=TRAY+lark')).toEqual([4]);
    expect(shown(cars, 'text=nowhere')).toEqual([]);
  });
  it('counts what is lacking as Home does: of the cars still here', () => {
    expect(shown(cars, 'show=unidentified')).toEqual([3]);
    expect(shown(cars, 'show=open-variation')).toEqual([4]);
    expect(shown(cars, 'show=ungraded')).toEqual([3]);
    expect(shown(cars, 'show=no-photograph')).toEqual([3]);
    expect(shown(cars, 'show=no-worth')).toEqual([6]);
  });
  it('does not recommend anything for a car that is sold', () => {
    expect(shown(cars, 'recommendation=restore')).not.toContain(5);
  });
});

describe('what the cars in view come to', () => {
  it('sums the cars still here, costs by currency and none converted', () => {
    const totals = totalsOf([
      car(1),
      car(2, { cost: 250, costCurrency: 'GBP', recommendation: 'leave', expectedGain: 0 }),
      car(3, { cost: null, costCurrency: null, recommendation: 'conserve', expectedGain: 20 }),
      car(4, { status: 'sold', cost: 9999 }),
    ]);
    expect(totals).toMatchObject({ cars: 4, here: 3, valued: 3, asFound: 12_000, gain: 520, gaining: 2 });
    expect(totals.costs).toEqual([
      { currency: 'GBP', minor: 250, cars: 1 },
      { currency: 'USD', minor: 1000, cars: 1 },
    ]);
    expect(totals.withoutCost).toBe(1);
  });
});

describe('a change in bulk', () => {
  it('is one action that says what it did', () => {
    expect(bulkChange([car(1), car(2)], { grade: 6.5 }, 'C6.5')).toEqual({
      changes: [
        { id: 1, patch: { grade: 6.5 } },
        { id: 2, patch: { grade: 6.5 } },
      ],
      label: 'Graded 2 cars C6.5',
    });
  });
  it('leaves the status of sold cars alone, but not their place', () => {
    const cars = [car(1), car(2, { status: 'sold' })];
    expect(bulkChange(cars, { status: 'donor' }, 'donor')).toEqual({
      changes: [{ id: 1, patch: { status: 'donor' } }],
      label: 'Marked K-1 donor',
    });
    expect(bulkChange(cars, { location: 'Tray' }, 'to Tray').changes).toHaveLength(2);
  });
});

describe('the order of the wall', () => {
  const cars = [
    car(10, { worths: { asFound: worth(50), restored: null, originalFinish: null, cost: null } }),
    car(9, { grade: null, worths: { asFound: null, restored: null, originalFinish: null, cost: null } }),
    car(2, { worths: { asFound: worth(90), restored: null, originalFinish: null, cost: null }, grade: 8 }),
    car(1, { status: 'sold', grade: null }),
  ];
  it('counts numbers as numbers', () => expect(ids(orderWall(cars, 'number'))).toEqual([1, 2, 9, 10]));
  it('hangs those without the figure last, by number', () => {
    expect(ids(orderWall(cars, 'worth'))).toEqual([2, 10, 1, 9]);
    expect(ids(orderWall(cars, 'grade'))).toEqual([2, 10, 1, 9]);
  });
});

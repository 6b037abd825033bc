import { describe, expect, it } from 'vitest';
import { bulkChange } from '../../../renderer/screens/cars/list/bulk-change.ts';
import { isOpen, queryOf } from '../../../renderer/screens/cars/list/car-filter.ts';
import { carFilterIn } from '../../../valuation/reading/list-address.ts';

describe('the filter in the address', () => {
  it('comes back from its query as it was', () => {
    const search =
      'lot=3,4&series=Harbour&series=Night%2C+late&casting=3&finish=original,touched+up&grade=7-8.5,none&status=kept&recommendation=not-enough-evidence&rarity=rare&show=ungraded&text=roof+rack';
    const filter = carFilterIn(search);
    expect(filter.lots).toEqual([3, 4]);
    expect(filter.series).toEqual(['Harbour', 'Night, late']);
    expect(filter.finish).toEqual(['original', 'touched up']);
    expect(carFilterIn(queryOf(filter).toString())).toEqual(filter);
  });
  it('leaves out what it does not know, and an open one says nothing', () => {
    const filter = carFilterIn('finish=gilded&casting=x&show=__proto__&grade=best&status=lost');
    expect(isOpen(filter)).toBe(true);
    expect(queryOf(carFilterIn('')).toString()).toBe('');
  });
});

describe('a change in bulk', () => {
  it('is one action that says what it did', () => {
    expect(bulkChange({ ids: [1, 2], sold: [], only: null }, { grade: 6.5 }, 'C6.5')).toEqual({
      changes: [
        { id: 1, patch: { grade: 6.5 } },
        { id: 2, patch: { grade: 6.5 } },
      ],
      label: 'Graded 2 cars C6.5',
    });
  });
  it('leaves the status of sold cars alone, but not their place', () => {
    const cars = { ids: [1, 2], sold: [2], only: 'K-1' };
    expect(bulkChange(cars, { status: 'donor' }, 'donor')).toEqual({
      changes: [{ id: 1, patch: { status: 'donor' } }],
      label: 'Marked K-1 donor',
    });
    expect(bulkChange(cars, { location: 'Tray' }, 'to Tray').changes).toHaveLength(2);
  });
});

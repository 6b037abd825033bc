import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PartStock } from '../../../electron/api/views.ts';
import { withPoint } from '../../../renderer/components/inputs/three-point.ts';
import { countChanges, withGrade } from '../../../renderer/screens/settings/assumptions/draft.ts';
import {
  figureText,
  percent,
  readFigure,
  times,
} from '../../../renderer/screens/settings/assumptions/figures.ts';
import { newPart, partChanges } from '../../../renderer/screens/settings/part-edits.ts';
import { readRate } from '../../../renderer/screens/settings/read-rate.ts';
import {
  isInside,
  pairScale,
  signedPercent,
} from '../../../renderer/screens/settings/valuations/pair-scale.ts';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';

describe('a figure of the assumptions', () => {
  it('is written without superfluous noughts and read back as it was', () => {
    expect(figureText(0.07, percent)).toBe('7');
    expect(figureText(0.125, percent)).toBe('12.5');
    expect(readFigure('7 %', percent)).toEqual({ value: 0.07 });
    expect(readFigure('1,4', times)).toEqual({ value: 1.4 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), tenths => {
        expect(readFigure(figureText(tenths / 1000, percent), percent)).toEqual({ value: tenths / 1000 });
      }),
    );
  });

  it('is refused outside sense', () => {
    expect(readFigure('', percent)).toHaveProperty('problem');
    expect(readFigure('much', percent)).toHaveProperty('problem');
    expect(readFigure('101', percent)).toEqual({ problem: 'Between 0 and 100' });
  });

  it('carries along the grades that it passes, and the points of a cost', () => {
    expect(withGrade([0.1, 0.2, 0.3, 1], 2, 0.5)).toEqual([0.1, 0.5, 0.5, 1]);
    expect(withGrade([0.1, 0.2, 0.3, 1], 3, 0.05)).toEqual([0.05, 0.05, 0.05, 1]);
    expect(withPoint({ low: 1, likely: 2, high: 3 }, 'low', 5)).toEqual({ low: 5, likely: 5, high: 5 });
    expect(withPoint({ low: 1, likely: 2, high: 3 }, 'high', 0)).toEqual({ low: 0, likely: 0, high: 0 });
  });

  it('is counted when it differs', () => {
    const before = defaultAssumptions('USD');
    expect(countChanges(before, defaultAssumptions('USD'))).toBe(0);
    const { other: _, ...sourceReliability } = before.sourceReliability;
    const after = { ...before, sourceReliability, halfLifeYears: 3, index: { series: { 2020: 1 } } };
    expect(countChanges(before, after)).toBe(3);
  });
});

describe('the parts shelf', () => {
  const about = {
    part: 'wheels',
    originality: 'reproduction',
    grade: 9,
    castingId: 2,
    donorCarId: null,
  } as const;
  const hub = { id: 4, name: 'Hub', inStock: 2, unit: null, currency: null, ...about };
  const part: PartStock = { ...hub, casting: 'Tallow', donorNumber: null, planned: 3 };
  const cell = (columnId: string, value: string | number | null) => ({ columnId, value, choice: null });

  it('saves each part once and whole, its price in the reporting currency', () => {
    const changes = [cell('inStock', 5), cell('unit', 120)].map(change => ({ rowId: '4', ...change }));
    expect(partChanges([part], changes, 'USD')).toEqual([{ ...hub, inStock: 5, unit: 120, currency: 'USD' }]);
    expect(partChanges([part], [{ rowId: '4', ...cell('name', null) }], 'USD')).toEqual([hub]);
  });

  it('makes a part once it has a name', () => {
    expect(newPart([cell('inStock', 5)], 'USD')).toBeNull();
    expect(newPart([cell('name', ' Axle '), cell('inStock', 5)], 'USD')).toEqual({
      name: 'Axle',
      inStock: 5,
      unit: null,
      currency: null,
    });
  });
});

describe('rates and past pairs', () => {
  it('read a rate above nothing', () => {
    expect([readRate('1,16'), readRate('0.0072'), readRate('150')]).toEqual(['1.16', '0.0072', '150']);
    expect([readRate('0'), readRate('-1'), readRate('1.16 USD'), readRate('')]).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });

  it('place every amount on one axis, in order', () => {
    const pair = { carId: 1, inventoryNumber: '1', valuedOn: '', soldOn: '', low: 100, mid: 200, high: 400 };
    const place = pairScale([{ ...pair, realised: 900 }]);
    const places = [100, 200, 400, 900].map(place);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
    expect(places[3]).toBeLessThan(1);
    expect(isInside({ ...pair, realised: 400 })).toBe(true);
    expect(isInside({ ...pair, realised: 401 })).toBe(false);
    expect([signedPercent(0.124), signedPercent(-0.03), signedPercent(0.001)]).toEqual([
      '+12 %',
      '−3 %',
      '±0 %',
    ]);
  });
});

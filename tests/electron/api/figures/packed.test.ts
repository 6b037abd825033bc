import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Packed } from '../../../../electron/api/figures/packed.ts';

interface Car {
  name: string;
  worth: { low: number; mid: number } | null;
  offers: { gain: number; passes: boolean; parts: Record<string, number> }[];
}

const number = fc.oneof(fc.double(), fc.integer());
const worth = fc.record({ low: number, mid: number });
const offer = fc.record({
  gain: number,
  passes: fc.boolean(),
  parts: fc.dictionary(fc.constantFrom('wheels', 'glazing', '7', '3'), number),
});
const car: fc.Arbitrary<Car> = fc.record({
  name: fc.constantFrom('Harrow', 'Oxbow', ''),
  worth: fc.option(worth),
  offers: fc.array(offer, { maxLength: 3 }),
});

describe('packed values', () => {
  it('come back as they were, also by a column, from a file, and as some of them', () => {
    fc.assert(
      fc.property(fc.array(car), cars => {
        const packed = new Packed<Car>();
        const places = cars.map(one => packed.add(one));
        const whole = (from: Packed<Car>) => places.map(from.column(one => one));
        expect(packed.size).toBe(cars.length);
        expect(whole(packed)).toEqual(cars);
        expect(whole(Packed.of(packed.columns()))).toEqual(cars);
        expect(places.map(packed.column(one => one.worth?.mid))).toEqual(cars.map(one => one.worth?.mid));
        expect(places.map(packed.column(one => one.offers))).toEqual(cars.map(one => one.offers));
        expect(places.map(packed.column(one => one.offers.some(({ passes }) => passes)))).toEqual(
          cars.map(one => one.offers.some(({ passes }) => passes)),
        );
        const some = places.filter(place => place % 2 === 1).reverse();
        const few = packed.only(some);
        expect(some.map((_, place) => few.column(one => one)(place))).toEqual(some.map(place => cars[place]));
      }),
    );
  });

  it('stand in several pieces of memory', () => {
    const packed = new Packed<number[]>();
    const list = (first: number) => Array.from({ length: 5000 }, (_, i) => first + i);
    for (let i = 0; i < 30; i += 1) packed.add(list(i));
    const at = packed.column(one => one);
    for (let i = 0; i < 30; i += 1) expect(at(i)).toEqual(list(i));
  });

  it('let a column choose, and work out nothing', () => {
    const packed = new Packed<Car>();
    packed.add({ name: 'Harrow', worth: { low: 1, mid: 2 }, offers: [] });
    expect(() => packed.column(one => (one.worth ? one.worth.low + one.worth.mid : 0))(0)).toThrow(
      'works nothing out',
    );
    expect(() => packed.column(one => (one.worth?.mid ?? 0) > 1000)(0)).toThrow('works nothing out');
  });

  it('refuse columns that belong to no values', () => {
    const packed = new Packed<Car>();
    packed.add({ name: 'Harrow', worth: { low: 1, mid: 2 }, offers: [] });
    const columns = packed.columns();
    expect(() => Packed.of({ ...columns, shapeOf: Uint32Array.of(3) })).toThrow('no shape');
    expect(() => Packed.of({ ...columns, numbers: new Float64Array(3) })).toThrow('not those');
    expect(() => Packed.of({ ...columns, numbers: new Float64Array(1) })).toThrow('not those');
  });
});

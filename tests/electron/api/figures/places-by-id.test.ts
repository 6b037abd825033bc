import fc from 'fast-check';
import { expect, it } from 'vitest';
import { PlacesById, placesOf } from '../../../../electron/api/figures/places-by-id.ts';

const id = fc.oneof(
  fc.integer({ min: 0, max: 9 }),
  fc.integer({ min: 1020, max: 1030 }),
  fc.maxSafeNat(),
  fc.constant(Number.MAX_SAFE_INTEGER),
);
const step = fc.oneof(
  fc.record({ do: fc.constant('set' as const), id, place: fc.nat(2 ** 31 - 2) }),
  fc.record({ do: fc.constant('delete' as const), id }),
  fc.record({ do: fc.constant('clear' as const), id }),
);

it('places by id are what a map of them has', () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 60 }), steps => {
      const [places, map] = [new PlacesById(), new Map<number, number>()];
      for (const one of steps) {
        if (one.do === 'set') {
          places.set(one.id, one.place);
          map.set(one.id, one.place);
        } else if (one.do === 'delete') {
          places.delete(one.id);
          map.delete(one.id);
        } else if (one.id % 2 === 0) {
          places.clear();
          map.clear();
        }
        expect(places.get(one.id)).toBe(map.get(one.id));
        expect(places.has(one.id)).toBe(map.has(one.id));
        expect(places.size).toBe(map.size);
      }
      expect(new Map(places)).toEqual(map);
      expect(new Map(placesOf(map))).toEqual(map);
    }),
  );
});

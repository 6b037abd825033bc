import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseColours, type PaintedCar, pairsOf } from '../../../valuation/choice/choose-colours.ts';

const colours = ['Ember', 'Moss', 'Tansy', 'Slate'];

/** Every way to give each car one of its colours, tried. */
const best = (cars: readonly PaintedCar[], shelf: ReadonlyMap<string, number>, pairCost: number): number => {
  const from = (i: number, counts: ReadonlyMap<string, number>, worth: number): number =>
    i === cars.length
      ? worth - pairCost * pairsOf(counts.values())
      : Math.max(
          ...cars[i]!.colours.map(one =>
            from(
              i + 1,
              new Map([...counts, [one.colour, (counts.get(one.colour) ?? 0) + 1]]),
              worth + one.worth,
            ),
          ),
        );
  return from(0, shelf, 0);
};

const carsOf = fc.array(
  fc.uniqueArray(
    fc.record({
      colour: fc.constantFrom(...colours),
      standing: fc.constantFrom('own' as const, 'factory' as const, 'other' as const),
      worth: fc.integer({ min: 0, max: 20_000 }),
    }),
    { selector: ({ colour }) => colour, minLength: 1, maxLength: 4 },
  ),
  { maxLength: 5 },
);

describe('colours for cars that are painted anyway', () => {
  it('are worth what the best of all ways to choose them is worth', async () => {
    await fc.assert(
      fc.asyncProperty(
        carsOf,
        fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 4, maxLength: 4 }),
        fc.integer({ min: 0, max: 5000 }),
        async (given, counts, pairCost) => {
          const cars = given.map((options, id) => ({ id, colours: options }));
          const shelf = new Map(colours.map((colour, i) => [colour, counts[i]!]));
          const { worth, pairs, cars: chosen } = await chooseColours(cars, shelf, pairCost);
          expect(chosen.map(({ id }) => id)).toEqual(cars.map(({ id }) => id));
          // The preference among equals may cost less than a minor unit in all.
          expect(Math.abs(worth - pairCost * pairs - best(cars, shelf, pairCost))).toBeLessThan(1);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('are their own where variety counts nothing, and spread where it counts much', async () => {
    const car = (id: number): PaintedCar => ({
      id,
      colours: [
        { colour: 'Moss', standing: 'other', worth: 1000 },
        { colour: 'Ember', standing: 'own', worth: 1000 },
        { colour: 'Tansy', standing: 'factory', worth: 900 },
      ],
    });
    const cars = [car(1), car(2), car(3)];
    const own = await chooseColours(cars, new Map([['Ember', 2]]), 0);
    expect(own.cars.map(({ colour }) => colour)).toEqual(['Ember', 'Ember', 'Ember']);
    expect(own.pairs).toBe(10);
    const spread = await chooseColours(cars, new Map([['Ember', 2]]), 500);
    expect(spread.cars.map(({ colour }) => colour).filter(colour => colour === 'Ember')).toEqual([]);
    expect(await chooseColours(cars, new Map([['Ember', 2]]), 500)).toEqual(spread);
  });

  it('refuses a car without a colour, a colour twice and a cost below nothing', async () => {
    await expect(chooseColours([{ id: 7, colours: [] }], new Map(), 1)).rejects.toThrow(
      'car 7 has no colour',
    );
    const twice = { colour: 'Moss', standing: 'own' as const, worth: 1 };
    await expect(chooseColours([{ id: 7, colours: [twice, twice] }], new Map(), 1)).rejects.toThrow('twice');
    await expect(chooseColours([], new Map(), -1)).rejects.toThrow('below zero');
  });
});

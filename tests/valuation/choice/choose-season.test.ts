import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseSeason } from '../../../valuation/choice/choose-season.ts';
import type { SeasonCar, SeasonLimits, SeasonOption } from '../../../valuation/choice/season-types.ts';

const doing = (known: Partial<SeasonOption> = {}): SeasonOption => ({
  option: 'restore',
  gain: 1000,
  hours: 4,
  cash: 500,
  parts: {},
  ...known,
});
const conserving = (known: Partial<SeasonOption> = {}) =>
  doing({ option: 'conserve', gain: 300, hours: 1, cash: 50, ...known });
const car = (id: number, options: SeasonOption[], rest: Partial<SeasonCar> = {}): SeasonCar => ({
  id,
  castingId: id,
  options,
  ...rest,
});

const option = fc.record({
  gain: fc.integer({ min: -300, max: 3000 }),
  hours: fc.integer({ min: 0, max: 8 }),
  cash: fc.integer({ min: 0, max: 2000 }),
  wheels: fc.integer({ min: 0, max: 2 }),
});
const kinds = ['conserve', 'restore', 'donor'] as const;
const drawn = fc.array(
  fc.record({
    options: fc.array(option, { minLength: 1, maxLength: 3 }),
    castingId: fc.option(fc.integer({ min: 1, max: 3 }), { nil: null }),
  }),
  { minLength: 1, maxLength: 6 },
);

/** Best sum of gains by trying every combination. Written apart from the code. */
const best = (cars: readonly SeasonCar[], limits: SeasonLimits): number => {
  let most = Number.NEGATIVE_INFINITY;
  const go = (
    at: number,
    gain: number,
    hours: number,
    cash: number,
    wheels: number,
    of: (number | null)[],
  ) => {
    if (hours > limits.hours! || cash > limits.cash! || wheels > limits.parts.wheels!) return;
    if (of.length > limits.cars!) return;
    if ([1, 2, 3].some(id => of.filter(one => one === id).length > limits.perCasting!)) return;
    if (at === cars.length) {
      most = Math.max(most, gain);
      return;
    }
    const { options, must, castingId } = cars[at]!;
    if (!must) go(at + 1, gain, hours, cash, wheels, of);
    for (const one of options)
      go(at + 1, gain + one.gain, hours + one.hours, cash + one.cash, wheels + one.parts.wheels!, [
        ...of,
        castingId,
      ]);
  };
  go(0, 0, 0, 0, 0, []);
  return most;
};

describe('chooseSeason', () => {
  it('finds what trying every combination finds, one thing to a car, every limit and must kept', async () => {
    await fc.assert(
      fc.asyncProperty(drawn, fc.integer({ min: 8, max: 25 }), async (list, hours) => {
        const cars = list.map(({ options, castingId }, i) =>
          car(
            i + 1,
            options.map(({ wheels, ...one }, k) => doing({ ...one, option: kinds[k]!, parts: { wheels } })),
            { castingId, must: i === 0 && options[0]!.cash <= 1500 },
          ),
        );
        const limits = { hours, cash: 4000, parts: { wheels: 3 }, cars: 4, perCasting: 2 };
        const { taken, gain, used, next } = await chooseSeason({ cars, limits }, { gap: 0 });
        expect(gain).toBeCloseTo(best(cars, limits), 6);
        expect(new Set(taken.map(({ id }) => id)).size).toBe(taken.length);
        if (cars[0]!.must) expect(taken.map(({ id }) => id)).toContain(1);
        expect(used.hours).toBeLessThanOrEqual(limits.hours);
        expect(used.cash).toBeLessThanOrEqual(limits.cash);
        expect(used.parts.wheels).toBeLessThanOrEqual(3);
        // Whatever would come next adds something, and is held back by something.
        for (const { adds, needs } of next) {
          expect(adds).toBeGreaterThan(0);
          const parts = Object.values(needs.parts);
          expect(
            needs.hours > 0 || needs.cash > 0 || needs.ofCasting || needs.place || parts.some(n => n > 0),
          ).toBe(true);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('prefers many small things to one large where hours are few, and says what the next car needs', async () => {
    const cars = [1, 2, 3, 4].map(id => car(id, [conserving(), doing()]));
    const { taken, gain, next } = await chooseSeason({ cars, limits: { hours: 4.5, parts: {} } });
    expect(taken.map(one => one.option)).toEqual(['conserve', 'conserve', 'conserve', 'conserve']);
    expect(gain).toBe(1200);
    expect(next[0]).toMatchObject({
      option: 'restore',
      instead: 'conserve',
      adds: 700,
      needs: { hours: 2.5, cash: 0, parts: {}, ofCasting: false },
    });
    const plenty = await chooseSeason({ cars, limits: { hours: 16, parts: {} } });
    expect(plenty.taken.map(one => one.option)).toEqual(['restore', 'restore', 'restore', 'restore']);
    expect(plenty.next).toEqual([]);
  });

  it('does nothing that gains nothing, unless a car must be in', async () => {
    const cars = [car(1, [doing({ gain: -50 })]), car(2, [doing({ gain: -80 })], { must: true })];
    const { taken, gain } = await chooseSeason({ cars, limits: { hours: 20, parts: {} } });
    expect(taken.map(({ id }) => id)).toEqual([2]);
    expect(gain).toBe(-80);
    expect((await chooseSeason({ cars: [], limits: { parts: {} } })).taken).toEqual([]);
  });

  it('names the part or the casting of which there is too little', async () => {
    const cars = [1, 2].map(id => car(id, [doing({ parts: { hub: 4 } })], { castingId: 7 }));
    const short = await chooseSeason({ cars, limits: { parts: { hub: 5 } } });
    expect(short.next[0]!.needs).toEqual({
      hours: 0,
      cash: 0,
      parts: { hub: 3 },
      place: false,
      ofCasting: false,
    });
    const crowded = await chooseSeason({ cars, limits: { parts: {}, perCasting: 1 } });
    expect(crowded.next[0]!.needs).toEqual({ hours: 0, cash: 0, parts: {}, place: false, ofCasting: true });
    const full = await chooseSeason({ cars, limits: { parts: {}, cars: 1 } });
    expect(full.taken).toHaveLength(1);
    expect(full.next[0]!.needs).toEqual({ hours: 0, cash: 0, parts: {}, place: true, ofCasting: false });
  });

  it('is the same whatever the order of the cars', async () => {
    const cars = Array.from({ length: 30 }, (_, i) =>
      car(i + 1, [conserving({ gain: 50 + ((i * 37) % 200) }), doing({ gain: 500 + ((i * 53) % 700) })]),
    );
    const limits = { hours: 40, cash: 6000, parts: {} };
    expect(await chooseSeason({ cars: cars.toReversed(), limits })).toEqual(
      await chooseSeason({ cars, limits }),
    );
  });

  it('does not search where nothing fits, and still says what would come next', async () => {
    const cars = Array.from({ length: 60 }, (_, i) =>
      car(i + 1, [conserving({ gain: 50 + i }), doing({ gain: 500 + i })]),
    );
    // A search would ask whether it is still wanted, and be told that it is not.
    const chosen = await chooseSeason({ cars, limits: { hours: 0.1, parts: {} } }, { cancelled: () => true });
    expect(chosen).toMatchObject({ taken: [], gain: 0 });
    expect(chosen.next).toHaveLength(3);
    expect(chosen.gapLeft).toBeUndefined();
  });

  it('refuses musts beyond a limit, naming it, and bad figures; stops when cancelled', async () => {
    const refused = (cars: SeasonCar[], limits: SeasonLimits, message: RegExp) =>
      expect(chooseSeason({ cars, limits })).rejects.toThrow(message);
    await refused([car(1, [doing({ hours: 9 })], { must: true })], { hours: 8, parts: {} }, /limit of hours/);
    await refused([car(1, [], { must: true })], { parts: {} }, /nothing can be done/);
    await refused([car(1, [doing()]), car(1, [doing()])], { parts: {} }, /twice/);
    await refused([car(1, [doing({ gain: Number.NaN })])], { parts: {} }, /gain of car 1, restore/);
    await refused([car(1, [doing({ hours: -1 })])], { parts: {} }, /hours of car 1/);
    await refused([car(1, [doing()])], { cash: -2, parts: {} }, /limit of cash/);
    const cars = Array.from({ length: 12 }, (_, i) => car(i + 1, [conserving(), doing({ gain: 900 + i })]));
    await expect(
      chooseSeason({ cars, limits: { hours: 9, parts: {} } }, { cancelled: () => true }),
    ).rejects.toMatchObject({ name: 'AbortError' });
  });
});

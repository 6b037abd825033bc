import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CarCandidate, type CarLimits, chooseCars } from '../../../valuation/choice/choose-cars.ts';
import { cashStep, minorToDecimal } from '../../../valuation/money.ts';
import type { Currency } from '../../../valuation/types.ts';

const car = (id: number, known: Partial<CarCandidate> = {}): CarCandidate => ({
  id,
  gain: 1000,
  hours: 3,
  cash: 500,
  parts: {},
  castingId: id,
  ...known,
});

const few = fc.array(
  fc.record({
    gain: fc.integer({ min: -500, max: 3000 }),
    hours: fc.integer({ min: 0, max: 8 }),
    cash: fc.integer({ min: 0, max: 2000 }),
    wheels: fc.integer({ min: 0, max: 2 }),
    castingId: fc.option(fc.integer({ min: 1, max: 3 }), { nil: null }),
    must: fc.boolean(),
    mustNot: fc.boolean(),
  }),
  { minLength: 1, maxLength: 9 },
);

/** Does a set keep every limit? Written apart from the code. */
const keeps = (set: CarCandidate[], limits: CarLimits): boolean => {
  const sum = (of: (c: CarCandidate) => number) => set.reduce((total, c) => total + of(c), 0);
  if (sum(c => c.hours) > (limits.hours ?? Infinity)) return false;
  if (sum(c => c.cash) > (limits.cash ?? Infinity)) return false;
  if (Object.entries(limits.parts).some(([part, stock]) => sum(c => c.parts[part] ?? 0) > stock))
    return false;
  return set.every(
    c =>
      c.castingId === null ||
      set.filter(other => other.castingId === c.castingId).length <= (limits.perCasting ?? Infinity),
  );
};

describe('chooseCars', () => {
  it('finds what trying every set finds, with every limit, must and must not kept', async () => {
    await fc.assert(
      fc.asyncProperty(
        few,
        fc.integer({ min: 8, max: 25 }),
        fc.integer({ min: 1000, max: 8000 }),
        fc.integer({ min: 1, max: 3 }),
        async (drawn, hours, cash, perCasting) => {
          let musts = 0;
          const candidates = drawn.map(({ wheels, must, mustNot, ...known }, i) =>
            car(i + 1, {
              ...known,
              parts: { wheels },
              mustNot,
              must: must && !mustNot && known.cash <= 1000 && musts++ === 0,
            }),
          );
          const limits: CarLimits = { hours, cash, parts: { wheels: 3 }, perCasting };
          let best = Number.NEGATIVE_INFINITY;
          for (let mask = 0; mask < 2 ** candidates.length; mask++) {
            const set = candidates.filter((_, j) => (mask >> j) & 1);
            if (set.some(c => c.mustNot) || candidates.some(c => c.must && !set.includes(c))) continue;
            if (keeps(set, limits))
              best = Math.max(
                best,
                set.reduce((sum, c) => sum + c.gain, 0),
              );
          }
          const found = await chooseCars({ candidates, limits }, { cashUnit: 1000 });
          const chosen = found.chosen.map(id => candidates.find(c => c.id === id)!);
          expect(keeps(chosen, limits)).toBe(true);
          expect(chosen.every(c => !c.mustNot)).toBe(true);
          expect(candidates.every(c => !c.must || chosen.includes(c))).toBe(true);
          expect(found.gain).toBeCloseTo(best, 6);
          expect(found.used.hours).toBe(chosen.reduce((sum, c) => sum + c.hours, 0));
          expect(found.used.parts).toEqual({
            wheels: chosen.reduce((sum, c) => sum + c.parts.wheels!, 0),
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  it('prices one more hour, ten more of cash and one more part', async () => {
    const candidates = [
      car(1, { gain: 1000, hours: 4, cash: 1000, parts: { wheels: 1 } }),
      car(2, { gain: 900, hours: 5, cash: 1000, parts: { wheels: 1 } }),
    ];
    const limits = { hours: 8, cash: 2000, parts: { wheels: 2, labels: 1 } };
    const found = await chooseCars({ candidates, limits }, { cashUnit: 1000 });
    expect(found).toMatchObject({
      chosen: [1],
      gain: 1000,
      used: { hours: 4, cash: 1000, parts: { wheels: 1, labels: 0 } },
      worthOfOneMore: { hours: 900, cash: 0, parts: { wheels: 0, labels: 0 } },
    });
    const poor = await chooseCars(
      { candidates, limits: { cash: 1000, parts: { wheels: 2 } } },
      { cashUnit: 1000 },
    );
    expect(poor.worthOfOneMore).toEqual({ hours: null, cash: 900, parts: { wheels: 0 } });
  });

  it('prices cash in the step of its currency', async () => {
    const addsOneCar = async (currency: Currency) => {
      const cash = cashStep(currency);
      const candidates = [car(1, { gain: 2 * cash, cash }), car(2, { gain: cash, cash })];
      const { worthOfOneMore } = await chooseCars(
        { candidates, limits: { cash, parts: {} } },
        { cashUnit: cash },
      );
      return minorToDecimal(worthOfOneMore.cash ?? 0, currency);
    };
    expect([await addsOneCar('USD'), await addsOneCar('BHD'), await addsOneCar('JPY')]).toEqual([
      '10.00',
      '10.000',
      '1000',
    ]);
    await expect(chooseCars({ candidates: [], limits: { cash: 100, parts: {} } })).rejects.toThrow(/step/);
  });

  it('orders by gain for its share of the limits', async () => {
    const candidates = [
      car(1, { gain: 1000, hours: 10 }),
      car(2, { gain: 900, hours: 2 }),
      car(3, { gain: 100, hours: 0 }),
    ];
    const found = await chooseCars({ candidates, limits: { hours: 40, parts: {} } }, { cashUnit: 1000 });
    expect(found.chosen).toEqual([3, 2, 1]);
  });

  it('takes all that gain where nothing is limited, the highest gain first', async () => {
    const candidates = [car(1, { gain: 5 }), car(2, { gain: -1 }), car(3, { gain: 9 })];
    const found = await chooseCars({ candidates, limits: { parts: {} } }, { cashUnit: 1000 });
    expect(found).toMatchObject({ chosen: [3, 1], gain: 14, worthOfOneMore: { hours: null, cash: null } });
    expect((await chooseCars({ candidates: [], limits: { hours: 5, parts: {} } })).chosen).toEqual([]);
  });

  it('does not mind the order of the candidates', async () => {
    const candidates = Array.from({ length: 12 }, (_, i) =>
      car(i + 1, { gain: 100 + ((i * 37) % 50), hours: 1 + (i % 4) }),
    );
    const limits = { hours: 11, parts: {} };
    expect(await chooseCars({ candidates: candidates.toReversed(), limits }, { cashUnit: 1000 })).toEqual(
      await chooseCars({ candidates, limits }, { cashUnit: 1000 }),
    );
  });

  it('refuses musts beyond a limit, naming it, and bad figures', async () => {
    const refused = (candidates: CarCandidate[], limits: CarLimits, message: RegExp) =>
      expect(chooseCars({ candidates, limits }, { cashUnit: 1000 })).rejects.toThrow(message);
    await refused([car(1, { must: true, hours: 9 })], { hours: 8, parts: {} }, /limit of hours/);
    await refused(
      [car(1, { must: true, castingId: 4 }), car(2, { must: true, castingId: 4 })],
      { parts: {}, perCasting: 1 },
      /limit of casting 4/,
    );
    await refused([car(1, { must: true, mustNot: true })], { parts: {} }, /car 1/);
    await refused([car(1), car(1)], { parts: {} }, /twice/);
    await refused([car(1, { gain: Number.NaN })], { parts: {} }, /gain of car 1/);
    await refused([car(1, { hours: -1 })], { parts: {} }, /hours of car 1/);
    await refused([car(1)], { hours: -2, parts: {} }, /limit of hours/);
  });
});

import { describe, expect, test } from 'vitest';
import { chooseSeason } from '../../../valuation/choice/choose-season.ts';
import type { SeasonCar, SeasonLimits } from '../../../valuation/choice/season-types.ts';
import { seededRandom } from '../../helpers/random.ts';

const draw = (count: number, seed: number): SeasonCar[] => {
  const { uniform, between } = seededRandom(seed);
  return Array.from({ length: count }, (_, i): SeasonCar => {
    const hours = between(2, 8);
    const gain = between(-1000, 6000) + 400 * hours;
    return {
      id: i + 1,
      castingId: i % 20,
      options: [
        { option: 'conserve', gain: between(1, 900), hours: between(0.3, 1.2), cash: 60, parts: {} },
        {
          option: 'restore',
          gain,
          hours,
          cash: Math.round(between(400, 2500)),
          parts: uniform() < 0.3 ? { hub: Math.ceil(between(0, 4)) } : {},
        },
      ],
    };
  });
};

const limits: Record<string, SeasonLimits> = {
  'four limits': { hours: 60, cash: 30_000, parts: { hub: 8 }, cars: 25 },
  'much time': { hours: 600, parts: {} },
  'a limit on each casting': { hours: 90, parts: {}, perCasting: 1 },
  'places alone': { parts: {}, cars: 70 },
};

describe.each(Object.entries(limits))('a season of %s, looked for among few of many cars', (_, of) => {
  test.each([1, 2, 3])(
    'is as good as that among all, and no better set is ruled out wrongly (%i)',
    async seed => {
      const cars = draw(400, seed);
      const whole = await chooseSeason({ cars, limits: of });
      const few = await chooseSeason({ cars, limits: of }, { mostConsidered: 40 });
      expect(whole.considered).toBeUndefined();
      expect(few.considered?.of).toBe(400);
      expect(few.considered?.cars).toBeLessThan(400);
      expect(few.gain).toBeGreaterThan(0.99 * whole.gain);
      expect(few.gain * (1 + (few.gapLeft ?? 0.001))).toBeGreaterThanOrEqual(whole.gain * (1 - 1e-9));
    },
  );

  test('has the cars that must be in, whatever they gain', async () => {
    const cars = draw(400, 5).map(car =>
      car.id % 97 === 0
        ? { ...car, must: true, options: car.options.map(one => ({ ...one, gain: -500 })) }
        : car,
    );
    const few = await chooseSeason({ cars, limits: of }, { mostConsidered: 40 });
    expect(few.considered?.cars).toBeLessThan(400);
    const taken = new Set(few.taken.map(({ id }) => id));
    expect([97, 194, 291, 388].filter(id => !taken.has(id))).toEqual([]);
  });
});

test('a season among few cars can be cancelled while the prices are found', async () => {
  const stop = new AbortController();
  stop.abort();
  const chosen = chooseSeason(
    { cars: draw(100, 1), limits: { hours: 20, parts: {} } },
    { mostConsidered: 20, signal: stop.signal },
  );
  await expect(chosen).rejects.toThrow(/abort|cancel/i);
});

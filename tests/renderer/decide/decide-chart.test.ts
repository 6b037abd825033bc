import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DecidePoints } from '../../../electron/api/views.ts';
import {
  crowd,
  type Direction,
  type Dot,
  dotAt,
  dotsOf,
  nextDot,
  probabilityScale,
  radiusOf,
} from '../../../renderer/screens/decide/scatter/dots.ts';
import { gainScale, gainTicks } from '../../../renderer/screens/decide/scatter/gain-scale.ts';
import { weighed } from '../../helpers/decide/weighed-car.ts';

describe('the axis of gains', () => {
  it('holds every gain, nothing, and the owner’s floor, in order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -5_000_000, max: 5_000_000 })),
        fc.integer({ min: 0, max: 10_000 }),
        (gains, floor) => {
          const scale = gainScale(gains, 'USD', floor);
          const sorted = [...gains, 0, floor].sort((a, b) => a - b).map(scale.at);
          expect(sorted.every(at => at >= 0 && at <= 1)).toBe(true);
          expect(sorted).toEqual([...sorted].sort((a, b) => a - b));
        },
      ),
    );
  });

  it('is even around nothing and logarithmic further out', () => {
    const { at } = gainScale([-10_000, 1_000_000], 'USD', 500);
    expect(at(100) - at(0)).toBeCloseTo(at(0) - at(-100), 9);
    const wide = at(1_000_000) - at(100_000);
    expect(wide).toBeCloseTo(at(100_000) - at(10_000), 1);
    expect(at(200) - at(100)).toBeGreaterThan(4 * (at(100_200) - at(100_100)));
  });

  it('counts in whole units of a currency without decimals', () => {
    const yen = gainScale([-50, 4000], 'JPY', 500);
    const dollars = gainScale([-5000, 400_000], 'USD', 50_000);
    for (const share of [-50, 0, 10, 4000]) expect(yen.at(share)).toBeCloseTo(dollars.at(share * 100), 12);
  });

  it('is marked at round gains that stand apart, nothing among them', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -2_000_000, max: 0 }),
        fc.integer({ min: 300, max: 9_000_000 }),
        (low, high) => {
          const scale = gainScale([low, high], 'USD', 500);
          const ticks = gainTicks(scale, 0.06);
          expect(ticks).toContain(0);
          expect(ticks.length).toBeGreaterThan(2);
          for (const [i, tick] of ticks.entries()) {
            expect(String(Math.abs(tick))).toMatch(/^(0|[125]0+)$/);
            const next = ticks[i + 1];
            if (next !== undefined) expect(scale.at(next) - scale.at(tick)).toBeGreaterThanOrEqual(0.06);
          }
        },
      ),
    );
  });
});

describe('the axis of probabilities', () => {
  it('begins at a quarter below the floor and every car', () => {
    expect(probabilityScale([0.7, 0.9], 0.6).ticks).toEqual([1, 0.9, 0.8, 0.7, 0.6, 0.5]);
    expect(probabilityScale([0.3], 0.6).ticks).toEqual([1, 0.75, 0.5, 0.25]);
    expect(probabilityScale([0], 0.6).ticks).toEqual([1, 0.75, 0.5, 0.25, 0]);
  });

  it('has air above the certain and below the least', () => {
    const { at } = probabilityScale([0.1], 0.6);
    expect(at(1, 200)).toBeGreaterThan(0);
    expect(at(0, 200)).toBeLessThan(200);
    expect(at(0.2, 200)).toBeGreaterThan(at(0.8, 200));
  });
});

describe('the dots', () => {
  it('have areas in proportion to what they cost, above a least one', () => {
    const area = (cost: number) => radiusOf(cost, 1000, 50) ** 2;
    expect(area(500) - area(0)).toBeCloseTo(area(1000) - area(500), 9);
    expect(area(0)).toBeGreaterThan(0);
    expect(radiusOf(0, 0, 5)).toBe(radiusOf(0, 1000, 5));
    expect(radiusOf(1000, 1000, crowd + 1)).toBeLessThan(radiusOf(1000, 1000, 50));
  });

  const points: DecidePoints = {
    ids: [1, 2],
    gains: [1000, 1000],
    probabilities: [0.8, 0.8],
    costs: [10, 900],
    recommendations: [2, 1],
    cars: [1, 40],
    weighed: 41,
    lacking: 1,
    highestCost: 900,
  };

  it('stand where their cars are, the large ones beneath', () => {
    const scale = gainScale([1000], 'USD', 500);
    const size = { width: 400, height: 200 };
    const dots = dotsOf(points, null, scale, probabilityScale([0.8], 0.6), size);
    expect(dots.map(({ id, cars, recommendation }) => [id, cars, recommendation])).toEqual([
      [2, 40, 'conserve'],
      [1, 1, 'restore'],
    ]);
    expect(dots[0]?.x).toBeCloseTo(scale.at(1000) * 400, 9);
  });

  it('are one more for the car under the cursor, where another stands for it', () => {
    const drawn = (id: number, rest = {}) =>
      dotsOf(points, weighed(id, {}, rest), gainScale([1000], 'USD', 500), probabilityScale([0.8], 0.6), {
        width: 400,
        height: 200,
      }).map(dot => dot.id);
    expect(drawn(9)).toEqual(expect.arrayContaining([1, 2, 9]));
    expect(drawn(1)).toHaveLength(2);
    expect(drawn(9, { shown: null })).toHaveLength(2);
  });
});

const dot = (id: number, x: number, y: number, r = 4): Dot => ({
  id,
  x,
  y,
  r,
  recommendation: 'restore',
  cars: 1,
});

describe('reaching a dot', () => {
  const dots = [dot(1, 50, 50, 10), dot(2, 50, 50), dot(3, 90, 52), dot(4, 52, 10), dot(5, 10, 80)];

  it('by the pointer finds the nearest within reach, the upper of two', () => {
    expect(dotAt(dots, 50, 50)?.id).toBe(2);
    expect(dotAt(dots, 87, 56)?.id).toBe(3);
    expect(dotAt(dots, 70, 90)).toBeNull();
  });

  it('by the arrows goes to the next one that way', () => {
    const from = (id: number, direction: Direction) => {
      const start = dots.find(one => one.id === id);
      return start ? (nextDot(dots, start, direction)?.id ?? null) : null;
    };
    expect(from(2, 'right')).toBe(3);
    expect(from(3, 'left')).toBe(1);
    expect(from(2, 'up')).toBe(4);
    expect(from(4, 'up')).toBeNull();
  });

  it('by the arrows prefers what lies that way, and takes what lies aside where nothing does', () => {
    const near = [dot(1, 0, 0), dot(2, 20, 30), dot(3, 60, 0), dot(4, 25, -60)];
    const from = (direction: Direction) => (near[0] ? (nextDot(near, near[0], direction)?.id ?? null) : null);
    expect(from('right')).toBe(3);
    expect(from('down')).toBe(2);
    expect(from('up')).toBe(4);
    expect(from('left')).toBeNull();
    const two = near.slice(0, 2);
    expect(two[0] && nextDot(two, two[0], 'right')?.id).toBe(2);
  });

  /** The dots that arrows reach from the first. */
  const reachedIn = (all: readonly Dot[]): Set<Dot> => {
    const reached = new Set<Dot>();
    const waiting = all.slice(0, 1);
    for (let at = waiting.pop(); at; at = waiting.pop()) {
      if (reached.has(at)) continue;
      reached.add(at);
      for (const direction of ['left', 'right', 'up', 'down'] as const) {
        const next = nextDot(all, at, direction);
        if (next) waiting.push(next);
      }
    }
    return reached;
  };

  it('by the arrows misses none amid four others', () => {
    const corners = [dot(1, 0, 0), dot(2, 20, 30), dot(3, 0, 60), dot(4, 50, 60), dot(5, 50, 0)];
    expect(reachedIn(corners).size).toBe(5);
  });

  it('by the arrows misses none', () => {
    const places = fc.uniqueArray(fc.tuple(fc.nat(40), fc.nat(20)), {
      minLength: 1,
      maxLength: 25,
      selector: String,
    });
    fc.assert(
      fc.property(places, spots => {
        const all = spots.flatMap(([x, y], i) => [dot(i, x * 10, y * 10), dot(i + 100, x * 10, y * 10)]);
        expect(reachedIn(all).size).toBe(all.length);
      }),
    );
  });
});

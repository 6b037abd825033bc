import { describe, expect, it } from 'vitest';
import { inventedCar } from '../../../renderer/screens/method/example/invented.ts';
import { sharesOf } from '../../../renderer/screens/method/example/shares-of.ts';
import {
  factorText,
  kindsOf,
  mostAdjusted,
  mostTelling,
  together,
  type WorkedCar,
} from '../../../renderer/screens/method/example/worked.ts';

const invented = (currency = 'USD'): WorkedCar => {
  const car = inventedCar(currency);
  if (!car) throw new Error('The invented market gave no worth');
  return car;
};

describe('the invented example', () => {
  it('is worked out by the engine: its records come to its worth', () => {
    const { records, worth, evidence } = invented();
    expect(records.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9);
    const pooled = records.reduce((sum, { weight, adjusted }) => sum + weight * Math.log(adjusted), 0);
    expect(Math.exp(pooled) / worth.mid).toBeGreaterThan(0.9);
    expect(Math.exp(pooled) / worth.mid).toBeLessThan(1.1);
    expect(worth.low).toBeLessThan(worth.mid);
    expect(evidence.sales).toBe(4);
    for (const { price, adjusted, adjustments } of records)
      expect(adjustments.reduce((standing, { factor }) => standing * factor, price)).toBeCloseTo(
        adjusted,
        -1,
      );
  });

  it('is the same in currencies without decimals and with three', () => {
    const dollars = invented().worth.mid;
    expect(invented('JPY').worth.mid).toBe(dollars);
    expect(invented('BHD').worth.mid / dollars).toBeCloseTo(10, 1);
  });
});

describe('a worked car', () => {
  it('shows the kinds of adjustment that its records needed, each as one factor', () => {
    const { records } = invented();
    expect(kindsOf(records)).toEqual(['source', 'rarity', 'grade', 'finish state', 'parts']);
    expect(mostAdjusted(records)?.adjustments.length).toBe(
      Math.max(...records.map(({ adjustments }) => adjustments.length)),
    );
    expect(mostAdjusted([])).toBeNull();
    const lines = [
      { what: 'parts' as const, factor: 2, cause: { kind: 'own-parts' as const } },
      { what: 'grade' as const, factor: 3, cause: { kind: 'rarity' as const } },
      { what: 'parts' as const, factor: 0.25, cause: { kind: 'departures' as const } },
    ];
    expect(together(lines, 'parts')).toEqual({
      factor: 0.5,
      causes: [{ kind: 'own-parts' }, { kind: 'departures' }],
    });
    expect(together(lines, 'date')).toBeNull();
    expect([factorText(2.28), factorText(0.987)]).toEqual(['× 2.28', '× 0.987']);
  });

  it('is the one that shows most of the pooling', () => {
    const car = invented();
    const with_ = (sales: number, credibility: number): WorkedCar => ({
      ...car,
      evidence: { ...car.evidence, sales, credibility },
    });
    const best = with_(5, 0.6);
    expect(mostTelling([with_(0, 0), best, with_(5, 0.99)])).toBe(best);
    expect(mostTelling([])).toBeNull();
  });

  it('says what its estimate rests on, without what is nothing', () => {
    const { evidence } = invented();
    const shares = { variation: 0.62, casting: 0.379, series: 0.001, everything: 0 };
    expect(sharesOf({ ...evidence, sales: 1, castingSales: 31, shares }).map(({ words }) => words)).toEqual([
      'this variation’s 1 sale',
      'its casting’s 31 sales',
    ]);
  });
});

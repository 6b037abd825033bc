import { describe, expect, it } from 'vitest';
import { disposalToSaleRecord } from '../../../valuation/lots/disposal-to-sale-record.ts';
import { diagnostics } from '../../../valuation/worth/diagnostics.ts';
import { seededRandom } from '../../helpers/random.ts';

const sd = 0.3;
/**
 * Valuations with 80 % ranges of a spread of 0.3, and prices that are off by `bias` with a
 * spread of `spread`.
 */
const past = (count: number, bias: number, spread: number, seed = 1) => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => {
    const mid = Math.exp(random.normal(8, 1));
    return {
      low: mid * Math.exp(-1.2816 * sd),
      mid,
      high: mid * Math.exp(1.2816 * sd),
      realised: mid * Math.exp(random.normal(bias, spread)),
    };
  });
};

describe('diagnostics', () => {
  it('says plainly when cars brought less, or more, than they were valued at', () => {
    const under = diagnostics(past(40, -0.4, sd));
    expect(under.bias).toBeLessThan(-0.2);
    expect(under.biasRange!.high).toBeLessThan(0);
    expect(under.verdict).toEqual({
      kind: 'wrong',
      count: 40,
      faults: expect.arrayContaining([{ kind: 'bias', bias: under.bias }]),
    });
    const over = diagnostics(past(40, 0.4, sd));
    expect(over.bias).toBeGreaterThan(0.2);
    expect(over.verdict).toMatchObject({
      faults: expect.arrayContaining([{ kind: 'bias', bias: over.bias }]),
    });
  });

  it('says plainly when the ranges are too narrow or too wide', () => {
    expect(diagnostics(past(60, 0, 0.8)).verdict).toMatchObject({
      kind: 'wrong',
      faults: [{ kind: 'ranges-too-narrow' }],
    });
    expect(diagnostics(past(60, 0, 0.05)).verdict).toMatchObject({
      kind: 'wrong',
      faults: [{ kind: 'ranges-too-wide' }],
    });
  });

  /** Whether an owner who looks after every sale is ever told that the estimates have been wrong. */
  const everWrong = (
    draw: (seed: number) => ReturnType<typeof past>,
    owners: number,
    correlation: number,
  ) => {
    let told = 0;
    for (let seed = 1; seed <= owners; seed++)
      if (diagnostics(draw(seed), correlation).verdict.kind === 'wrong') told++;
    return told / owners;
  };
  /** Errors that go together: all estimates share one error. */
  const sharing = (count: number, correlation: number, bias: number, seed: number) => {
    const together = seededRandom(seed * 31).normal(0, sd * Math.sqrt(correlation));
    return past(count, bias + together, sd * Math.sqrt(1 - correlation), seed);
  };

  it('tells an honest owner at most one time in ten, however often they look, and whatever the errors share', () => {
    // The verdict over all sales is that of every look on the way: four deviations of 300 owners are 0.07.
    expect(everWrong(seed => past(50, 0, sd, seed), 300, 0)).toBeLessThan(0.12);
    expect(everWrong(seed => sharing(50, 0.05, 0, seed), 300, 0.05)).toBeLessThan(0.12);
    // Not minding what they share cries wolf.
    expect(everWrong(seed => sharing(50, 0.05, 0, seed), 300, 0)).toBeGreaterThan(0.15);
  });

  it('keeps to what it said once: a verdict of wrong is never taken back by looking again', () => {
    for (let seed = 1; seed <= 15; seed++) {
      const all = past(40, -0.2, sd, seed);
      let wrong = false;
      for (let n = 5; n <= 40; n++) {
        const now = diagnostics(all.slice(0, n)).verdict.kind === 'wrong';
        if (wrong) expect(now).toBe(true);
        wrong = now;
      }
    }
  });

  it('finds out in most cases by twenty sales that cars bring a fifth less', () => {
    const typical = 0.35;
    const draw = (seed: number) =>
      past(20, Math.log(0.8), typical, seed).map(one => ({
        ...one,
        low: one.mid * Math.exp(-1.2816 * typical),
        high: one.mid * Math.exp(1.2816 * typical),
      }));
    expect(everWrong(draw, 300, 0.01)).toBeGreaterThan(0.64);
  });

  it('lets one absurd price count no more than one that is merely far off', () => {
    for (let seed = 1; seed <= 50; seed++) {
      const sales = past(12, 0.1, sd, seed);
      const withLast = (factor: number) => {
        const last = sales.map((one, i) => (i === 11 ? { ...one, realised: one.mid * factor } : one));
        const { verdict } = diagnostics(last);
        return verdict.kind === 'wrong' && verdict.faults.some(({ kind }) => kind === 'bias');
      };
      expect(withLast(1000)).toBe(withLast(Math.exp(2.3 * sd)));
    }
  });

  it('measures bias, coverage and the typical error', () => {
    const at = (realised: number) => ({ low: 80, mid: 100, high: 125, realised });
    const found = diagnostics([at(100), at(110), at(121), at(200), at(70), at(100)]);
    const logs = [0, Math.log(1.1), Math.log(1.21), Math.log(2), Math.log(0.7), 0];
    expect(found.bias).toBeCloseTo(Math.expm1(logs.reduce((a, b) => a + b, 0) / 6), 12);
    expect(found.coverage).toBeCloseTo(4 / 6, 12);
    expect(found.typicalError).toBeCloseTo(Math.expm1((Math.log(1.1) + Math.log(1.21)) / 2), 9);
    expect(found.coverageRange!.low).toBeLessThan(4 / 6);
  });

  it('says nothing from too few, and refuses amounts that are none', () => {
    expect(diagnostics([])).toMatchObject({ count: 0, bias: null, coverage: null });
    expect(diagnostics([]).verdict).toEqual({ kind: 'none-sold' });
    expect(diagnostics(past(1, -2, 0)).verdict).toEqual({ kind: 'too-few', count: 1 });
    expect(diagnostics(past(4, -2, 0)).verdict).toEqual({ kind: 'too-few', count: 4 });
    expect(() => diagnostics([{ low: 1, mid: 0, high: 2, realised: 3 }])).toThrow(RangeError);
    expect(() => diagnostics([{ low: 1, mid: 2, high: 3, realised: Number.NaN }])).toThrow(RangeError);
  });
});

describe('disposalToSaleRecord', () => {
  const car = {
    castingId: 4,
    variationId: 9,
    grade: 8.5,
    finishState: 'restored' as const,
    parts: [
      { part: 'wheels' as const, grade: null, originality: 'reproduction' as const },
      { part: 'labels' as const, grade: null, originality: 'missing' as const },
      { part: 'roof' as const, grade: 9, originality: 'original' as const },
    ],
  };
  const disposal = { soldOn: '2025-03-01', proceeds: 4200, currency: 'USD' };

  it('is the sale as the buyer saw it', () => {
    expect(disposalToSaleRecord(7, car, disposal)).toEqual({
      id: 7,
      soldOn: '2025-03-01',
      price: 4200,
      currency: 'USD',
      castingId: 4,
      variationId: 9,
      grade: 8.5,
      finishState: 'restored',
      missingParts: ['labels'],
      reproductionParts: ['wheels'],
      reliability: null,
      source: 'own sale',
    });
  });

  it('tells nothing of a car given away or unidentified', () => {
    expect(disposalToSaleRecord(7, car, { ...disposal, proceeds: 0 })).toBeNull();
    expect(disposalToSaleRecord(7, { ...car, castingId: null }, disposal)).toBeNull();
  });
});

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

  it('cries wolf about good estimates no more often than its 5 % tests do', () => {
    const verdicts = Array.from({ length: 200 }, (_, seed) => diagnostics(past(30, 0, sd, seed + 1)).verdict);
    const wrong = verdicts.filter(verdict => verdict.kind === 'wrong');
    expect(wrong.length / verdicts.length).toBeLessThan(0.15);
    expect(verdicts.find(verdict => verdict.kind === 'nothing-against')).toBeDefined();
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

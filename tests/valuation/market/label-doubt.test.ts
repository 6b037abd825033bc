import { describe, expect, it } from 'vitest';
import { defaultAssumptions, fitMarket, type Market, valueCar } from '../../../valuation/index.ts';
import { newDoubt, settleDoubt } from '../../../valuation/market/label-doubt.ts';
import type { MarketDesign } from '../../../valuation/market/market-design.ts';
import type { PooledLevel } from '../../../valuation/market/pool-evidence.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { simulateMarket } from '../../helpers/markets/market-simulator.ts';

const assumptions = { ...defaultAssumptions('USD'), index: 'none' as const };
const mean = (values: number[]) => values.reduce((sum, x) => sum + x, 0) / values.length;

/** Every seventh record is booked under the next variation of its casting. */
const booked = (market: Market, every = 7) => {
  const wrong = new Set<number>();
  const sales = market.sales.map(sale => {
    const own = market.variations.filter(({ castingId }) => castingId === sale.castingId);
    if (sale.id % every !== 0 || own.length < 2) return sale;
    wrong.add(sale.id);
    const at = own.findIndex(({ id }) => id === sale.variationId);
    return { ...sale, variationId: own[(at + 1) % own.length]!.id };
  });
  return { market: { ...market, sales }, wrong };
};

describe('records booked under another variation', () => {
  const { market: clean, truth, on } = simulateMarket({ seed: 13, drift: 0, noise: 0.25 });
  const { market, wrong } = booked(clean);
  const fitted = fitMarket(market, assumptions, on);
  const weightOf = (of: (id: number) => boolean) =>
    mean(
      fitted.inside.sales.flatMap(({ record, weight }, i) =>
        of(record.id) ? fitted.inside.weights[i]! / weight : [],
      ),
    );

  it('weigh less than those booked rightly, and are surer of less than they weigh', () => {
    expect(wrong.size).toBeGreaterThan(100);
    expect(fitted.stable).toBe(true);
    expect(weightOf(id => wrong.has(id))).toBeLessThan(0.8 * weightOf(id => !wrong.has(id)));
    const { certainty, weights } = fitted.inside;
    expect(certainty.every((one, i) => one <= weights[i]!)).toBe(true);
    expect(certainty.reduce((sum, one) => sum + one, 0)).toBeLessThan(
      0.97 * weights.reduce((sum, one) => sum + one, 0),
    );
  });

  it('are named where another variation is likelier, with the chance of it', () => {
    const named = fitted.mislabelled;
    expect(named.length).toBeGreaterThan(30);
    expect(named.every(({ chance }) => chance > 0.5 && chance < 1)).toBe(true);
    const right = named.filter(({ id }) => wrong.has(id)).length;
    // As often wrong as they are said to be, or nearly.
    expect(right / named.length).toBeGreaterThan(mean(named.map(({ chance }) => chance)) - 0.15);
    expect(fitMarket(clean, assumptions, on).mislabelled.length).toBeLessThan(named.length / 5);
  });

  it('draw what rare variations bring less towards what common ones do', () => {
    const off = market.variations.flatMap(({ id, castingId, rarity }) => {
      if (rarity !== 'rare') return [];
      const { asFound } = valueCar(fitted, subjectOf({ castingId, variationId: id, grade: 6 }));
      return asFound!.logMean - truth.logPrice(id, 'original', 6);
    });
    expect(off.length).toBeGreaterThan(10);
    // With every label taken as it is they are valued too low by 0.36.
    expect(mean(off)).toBeGreaterThan(-0.15);
  });

  it('are hardly seen where there are none', () => {
    const { inside } = fitMarket(clean, assumptions, on);
    const asBooked = mean(inside.sales.map(({ weight }, i) => inside.weights[i]! / weight));
    expect(asBooked).toBeGreaterThan(0.95);
  });

  it('are not looked for among fewer than a hundred records, nor among one’s own sales', () => {
    const few = fitMarket({ ...market, sales: market.sales.slice(0, 99) }, assumptions, on);
    expect(few.inside.certainty).toBe(few.inside.weights);
    const own = market.sales.map(sale => ({ ...sale, source: 'own sale' as const }));
    const ownFit = fitMarket({ ...market, sales: own }, assumptions, on);
    expect(ownFit.inside.certainty).toBe(ownFit.inside.weights);
  });
});

describe('settleDoubt', () => {
  it('gives the chance of Bayes’ rule, half the way, the record itself not counted', () => {
    const count = 100;
    const slots = Int32Array.from({ length: count }, (_, i) => Number(i >= 60));
    const design = {
      slots,
      labelled: new Uint8Array(count).fill(1),
      rarities: ['common', 'common'],
      tree: { variationCasting: Int32Array.of(0, 0), castingSeries: Int32Array.of(0), seriesCount: 1 },
    } as unknown as MarketDesign;
    const before = newDoubt(design)!;
    const filled = (x: number) => new Float64Array(count).fill(x);
    const { right, sure, share } = settleDoubt({
      design,
      before,
      residuals: filled(0.5),
      departures: filled(1),
      apart: filled(0.4),
      sale: filled(0.16),
      variations: {
        mean: Float64Array.of(0.1, 0.1),
        variance: Float64Array.of(0.09, 0.09),
      } as unknown as PooledLevel,
      rarityLogs: Float64Array.of(0, 0.5),
    });
    // Of variation 0: 59 others and the one expected; 40 and one of variation 1, which would bring 0.5 more.
    const asBooked = (0.97 * 60 * Math.exp(-0.5)) / 0.4;
    const other = (0.03 * 41 * Math.exp(-((0.5 - 0.5 - 0.1) ** 2) / 0.25 / 2)) / 0.5;
    const chance = asBooked / (asBooked + other);
    expect(right[0]).toBeCloseTo((1 + chance) / 2, 10);
    expect(sure[0]).toBeCloseTo(1 - ((1 - right[0]!) * 0.4 ** 2) / 0.16, 10);
    expect(share).toBeCloseTo((3 + right.reduce((sum, one) => sum + 1 - one, 0)) / 200, 10);
  });

  it('takes a price that suits none of the variations for rightly booked', () => {
    const design = {
      slots: new Int32Array(100),
      labelled: new Uint8Array(100).fill(1),
      rarities: ['common', 'rare'],
      tree: { variationCasting: Int32Array.of(0, 0), castingSeries: Int32Array.of(0), seriesCount: 1 },
    } as unknown as MarketDesign;
    const filled = (x: number) => new Float64Array(100).fill(x);
    const { right } = settleDoubt({
      design,
      before: newDoubt(design)!,
      residuals: filled(1000),
      departures: filled(1000),
      apart: filled(1000),
      sale: filled(0.1),
      variations: {
        mean: new Float64Array(2),
        variance: Float64Array.of(0.1, 0.1),
      } as unknown as PooledLevel,
      rarityLogs: new Float64Array(2),
    });
    expect(right.every(one => one === 1)).toBe(true);
  });
});

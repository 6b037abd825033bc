import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { packagingLog } from '../../../valuation/market/packaging-gain.ts';
import { partsLog } from '../../../valuation/market/part-loss.ts';
import type { Originality, PartName } from '../../../valuation/words.ts';
import { partsToShow } from '../../../valuation/words.ts';

const { partLoss, ...assumptions } = defaultAssumptions('USD');
const part = (name: PartName, originality: Originality, grade: number | null = null) => ({
  part: name,
  originality,
  grade,
});

describe('packaging', () => {
  it('adds by its own grade, and takes nothing where it is missing', () => {
    const gain = (grade: number | null, originality: Originality = 'original') =>
      Math.exp(packagingLog([part('packaging', originality, grade)], assumptions));
    expect(gain(10)).toBeCloseTo(1.4, 12);
    expect(gain(1)).toBe(1);
    expect(gain(5.5)).toBeCloseTo(1.2, 12);
    // Not graded: the usual grade, C6.
    expect(gain(null)).toBeCloseTo(1 + (0.4 * 5) / 9, 12);
    expect(gain(10, 'reproduction')).toBeCloseTo(1 + 0.4 / 3, 12);
    expect(gain(10, 'missing')).toBe(1);
    expect(packagingLog([], assumptions)).toBe(0);
    expect(partsLog([part('packaging', 'missing')], partLoss)).toBe(0);
  });
});

describe('wheels one by one', () => {
  it('take a quarter each, and nothing beside what is said of all four', () => {
    const one = partsLog([part('front left wheel', 'missing')], partLoss);
    const four = partsLog([part('wheels', 'missing')], partLoss);
    expect(one).toBeLessThan(0);
    expect(one).toBeGreaterThan(four);
    expect(partsLog([part('wheels', 'missing'), part('front left wheel', 'missing')], partLoss)).toBe(four);
  });
});

describe('the parts that are asked about', () => {
  it('are the casting’s own list with what every car has, and what was looked at', () => {
    expect(partsToShow(['base', 'wheels'], ['packaging'])).toEqual([
      'casting metal',
      'body finish',
      'base',
      'wheels',
      'post and rivet closure',
      'packaging',
    ]);
    expect(partsToShow(null, [])).not.toContain('packaging');
    expect(partsToShow(null, [])).toContain('glazing');
  });
});

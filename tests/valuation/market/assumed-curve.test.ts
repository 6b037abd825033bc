import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { assumedCurve, gradeStep } from '../../../valuation/market/assumed-curve.ts';
import { finishStates, grades } from '../../../valuation/words.ts';

const assumptions = defaultAssumptions('USD');

describe('assumedCurve', () => {
  it('holds the multiplier times the finish factor at whole grades, and its geometric mean at half grades', () => {
    const curve = assumedCurve(assumptions, 'restored').map(Math.exp);
    expect(curve[gradeStep(9)]).toBeCloseTo(0.85 * 0.5, 12);
    expect(curve[gradeStep(10)]).toBeCloseTo(0.5, 12);
    expect(curve[gradeStep(9.5)]).toBeCloseTo(0.5 * Math.sqrt(0.85), 12);
  });

  it('rises in every finish state of the defaults', () => {
    for (const state of finishStates) {
      const curve = assumedCurve(assumptions, state);
      for (let i = 1; i < curve.length; i++) expect(curve[i]).toBeGreaterThan(curve[i - 1]!);
    }
  });

  it.each([
    ['nine multipliers', [1, 1, 1, 1, 1, 1, 1, 1, 1], /ten/],
    ['a fall', [1, 2, 1, 2, 2, 2, 2, 2, 2, 2], /must not fall: C3 is below C2/],
    ['nothing', [0, 1, 1, 1, 1, 1, 1, 1, 1, 1], /above zero/],
    ['no number', [Number.NaN, 1, 1, 1, 1, 1, 1, 1, 1, 1], /finite/],
  ])('refuses %s', (_, original, message) => {
    const broken = { ...assumptions, gradeMultipliers: { ...assumptions.gradeMultipliers, original } };
    expect(() => assumedCurve(broken, 'original')).toThrow(message);
  });
});

describe('gradeStep', () => {
  it('counts the nineteen grades and refuses what is none', () => {
    expect(grades.map(gradeStep)).toEqual(grades.map((_, i) => i));
    for (const bad of [0.5, 10.5, 7.25, Number.NaN]) expect(() => gradeStep(bad)).toThrow(RangeError);
  });
});

import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../valuation/default-assumptions.ts';
import { deviationKinds, finishStates, partNames, rarities } from '../../valuation/words.ts';
import { standardPlan } from '../../valuation/worth/standard-plan.ts';
import { subjectOf } from '../helpers/markets/market-arbitrary.ts';

describe('defaultAssumptions', () => {
  it('covers every word of the trade, and says where its figures come from', () => {
    const set = defaultAssumptions('USD');
    expect(set.label).toContain('common practice, no source');
    expect(set.index).toBe('records');
    expect(Object.keys(set.gradeMultipliers).sort()).toEqual([...finishStates].sort());
    expect(Object.keys(set.finishFactors).sort()).toEqual([...finishStates].sort());
    expect(Object.keys(set.partLoss).sort()).toEqual([...partNames].sort());
    expect(Object.keys(set.deviationLoss).sort()).toEqual([...deviationKinds].sort());
    expect(Object.keys(set.rarityFactors).sort()).toEqual([...rarities].sort());
  });

  it('is in whole minor units of the currency: cents for yen, ten fils to the cent for dinars', () => {
    expect(defaultAssumptions('USD').decision.leastGain).toBe(500);
    expect(defaultAssumptions('JPY').decision.leastGain).toBe(500);
    expect(defaultAssumptions('BHD').decision.leastGain).toBe(5000);
    expect(() => defaultAssumptions('nope')).toThrow(RangeError);
  });

  it('is a value of its own each time, and plain data', () => {
    const one = defaultAssumptions('USD');
    one.finishFactors.restored = 0.9;
    expect(defaultAssumptions('USD').finishFactors.restored).toBe(0.5);
    expect(JSON.parse(JSON.stringify(one))).toEqual(one);
  });
});

describe('standardPlan', () => {
  const set = defaultAssumptions('USD');
  it('buys a reproduction for each part that is gone, and keeps replacements as they are', () => {
    const parts = [
      { part: 'wheels' as const, grade: null, originality: 'missing' as const },
      { part: 'glazing' as const, grade: null, originality: 'period replacement' as const },
      { part: 'roof' as const, grade: 5, originality: 'original' as const },
      { part: 'body finish' as const, grade: null, originality: 'missing' as const },
    ];
    const plan = standardPlan(subjectOf({ parts }), set);
    expect(plan.partsAfter).toEqual([
      { part: 'wheels', grade: null, originality: 'reproduction' },
      { part: 'glazing', grade: null, originality: 'period replacement' },
    ]);
    expect(plan.lines.map(({ name }) => name)).toContain('Reproduction wheels');
    expect(plan.lines.length).toBe(set.standardPlan.restore.lines.length + 1);
  });

  it('customises with deviations', () => {
    expect(standardPlan(subjectOf({}), set, 'customise')).toMatchObject({
      kind: 'customise',
      deviations: ['another colour', 'visible post closure'],
    });
  });
});

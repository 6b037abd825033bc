import { describe, expect, it } from 'vitest';
import { type OptionScore, recommend } from '../../../valuation/decision/recommend-car.ts';

const option = (known: Partial<OptionScore>): OptionScore => ({
  option: 'restore',
  expectedGain: 10,
  probability: 0.9,
  guarded: false,
  passes: true,
  ...known,
});

describe('recommend', () => {
  it('takes the highest gain that passes; the best needs not pass', () => {
    const found = recommend([
      option({ option: 'conserve', expectedGain: 5 }),
      option({ option: 'restore', expectedGain: 20, passes: false }),
      option({ option: 'customise', expectedGain: 7 }),
    ]);
    expect(found.recommended.option).toBe('customise');
    expect(found.best.option).toBe('restore');
  });

  it('leaves where nothing passes, where all is guarded, and where nothing gains', () => {
    expect(recommend([]).recommended.option).toBe('leave');
    expect(recommend([option({ guarded: true })])).toMatchObject({
      recommended: { option: 'leave' },
      best: { option: 'leave' },
    });
    expect(recommend([option({ expectedGain: -3, passes: false })]).best.option).toBe('leave');
    expect(recommend([option({ expectedGain: 0 })]).recommended.option).toBe('leave');
  });

  it('takes the earlier of equals', () => {
    expect(
      recommend([option({ option: 'conserve' }), option({ option: 'restore' })]).recommended.option,
    ).toBe('conserve');
  });
});

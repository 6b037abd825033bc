import { describe, expect, it } from 'vitest';
import { axisText, deltaText, percentText, worthText } from '../../../renderer/components/format.ts';
import { describeWorths } from '../../../renderer/components/worth-strip/describe.ts';

describe('a strip in words', () => {
  it('says the three worths in their order, the whisker and what can no longer be had', () => {
    const words = describeWorths(
      {
        asFound: { low: 4000, mid: 6000, high: 9000 },
        restored: { low: 5500, mid: 8200, high: 12_000, gross: 14_500 },
        originalFinish: { low: 20_000, mid: 28_000, high: 40_000, attainable: false },
      },
      'USD',
    );
    expect(words).toBe(
      'Value in USD. As found: 40 to 90, middle 60. Restored, net of cost: 55 to 120, middle 82, up to 145 before cost. Original finish: 200 to 400, middle 280, no longer attainable.',
    );
  });

  it('says what is not known, one by one or altogether', () => {
    const none = { asFound: null, restored: null, originalFinish: null };
    expect(describeWorths(none, 'USD')).toBe('Not enough evidence for any value.');
    expect(describeWorths({ ...none, asFound: { low: 4000, mid: 6000, high: 9000 } }, 'USD')).toContain(
      'Restored, net of cost: not enough evidence',
    );
  });
});

describe('figures', () => {
  it('are as precise as an estimate deserves', () => {
    expect(worthText(123_456, 'USD')).toBe('1,235');
    expect(worthText(1234, 'USD')).toBe('12.34');
    expect(worthText(-400, 'USD')).toBe('−4.00');
    expect(worthText(1234, 'JPY')).toBe('1,234');
  });

  it('say a change with its sign', () => {
    expect(deltaText(3400, 'USD')).toBe('+34');
    expect(deltaText(-1250, 'USD')).toBe('−12.50');
    expect(deltaText(0, 'USD')).toBe('±0');
  });

  it('never call the nearly certain certain', () => {
    expect(percentText(0.731)).toBe('73 %');
    expect(percentText(0.9996)).toBe('> 99 %');
    expect(percentText(0.0004)).toBe('< 1 %');
    expect(percentText(1)).toBe('100 %');
    expect(percentText(0)).toBe('0 %');
  });

  it('stand on an axis without decimals that say nothing', () => {
    expect(axisText(1000, 'USD')).toBe('10');
    expect(axisText(50, 'USD')).toBe('0.50');
    expect(axisText(5000, 'JPY')).toBe('5,000');
  });
});

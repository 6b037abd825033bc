import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { currencyDecimals, decimalToMinor, formatMinor, minorToDecimal } from '../../valuation/index.ts';
import { cashStep } from '../../valuation/money.ts';

describe('money', () => {
  it('steps cash by ten where there are decimals, by a thousand where there are none', () => {
    expect(['USD', 'BHD', 'JPY', 'CLF'].map(currency => formatMinor(cashStep(currency), currency))).toEqual([
      '10.00',
      '10.000',
      '1,000',
      '10.0000',
    ]);
  });

  it('knows the decimals of a currency', () => {
    expect(['USD', 'EUR', 'JPY', 'BHD', 'CLF'].map(currencyDecimals)).toEqual([2, 2, 0, 3, 4]);
    expect(() => currencyDecimals('usd')).toThrow(RangeError);
    expect(() => currencyDecimals('')).toThrow(RangeError);
  });

  it('writes decimal strings without grouping', () => {
    expect(minorToDecimal(125000, 'USD')).toBe('1250.00');
    expect(minorToDecimal(-5, 'USD')).toBe('-0.05');
    expect(minorToDecimal(0, 'USD')).toBe('0.00');
    expect(minorToDecimal(1250, 'JPY')).toBe('1250');
    expect(minorToDecimal(5, 'BHD')).toBe('0.005');
    expect(() => minorToDecimal(0.5, 'USD')).toThrow(RangeError);
    expect(() => minorToDecimal(2 ** 53, 'USD')).toThrow(RangeError);
  });

  it('reads what it writes, for every currency and amount', () => {
    fc.assert(
      fc.property(fc.maxSafeInteger(), fc.constantFrom('USD', 'JPY', 'BHD', 'CLF'), (minor, currency) => {
        expect(decimalToMinor(minorToDecimal(minor, currency), currency)).toBe(minor === 0 ? 0 : minor);
      }),
    );
  });

  it('reads short decimals and trailing zeros', () => {
    expect(decimalToMinor('1250', 'USD')).toBe(125000);
    expect(decimalToMinor(' 1250.5 ', 'USD')).toBe(125050);
    expect(decimalToMinor('1.5000', 'USD')).toBe(150);
    expect(decimalToMinor('7.000', 'JPY')).toBe(7);
    expect(Object.is(decimalToMinor('-0.00', 'USD'), 0)).toBe(true);
  });

  it('refuses what is no amount of the currency, rather than take it for zero', () => {
    for (const text of [
      '',
      ' ',
      'abc',
      '1,250.00',
      '1.250,00',
      '$5',
      '1e3',
      '.5',
      '5.',
      '--5',
      'NaN',
      'Infinity',
    ])
      expect(() => decimalToMinor(text, 'USD'), text).toThrow(RangeError);
    expect(() => decimalToMinor('0.005', 'USD')).toThrow(/more decimals than USD has/);
    expect(() => decimalToMinor('0.5', 'JPY')).toThrow(RangeError);
    expect(() => decimalToMinor('90071992547409.92', 'USD')).toThrow(/too large/);
    expect(decimalToMinor('90071992547409.91', 'USD')).toBe(Number.MAX_SAFE_INTEGER);
  });

  it('formats for reading by the locale', () => {
    expect(formatMinor(125000, 'USD')).toBe('1,250.00');
    expect(formatMinor(125000, 'EUR', 'de-DE')).toBe('1.250,00');
    expect(formatMinor(125000, 'JPY')).toBe('125,000');
    expect(formatMinor(-125049, 'USD', 'en-US', 0)).toBe('-1,250');
  });
});

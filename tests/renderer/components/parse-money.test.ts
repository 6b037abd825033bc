import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseMoney, separatorsOf } from '../../../renderer/components/inputs/parse-money.ts';
import { formatMinor } from '../../../valuation/money.ts';

const point = { decimal: '.', group: ',' };
const comma = { decimal: ',', group: '.' };

describe('parseMoney', () => {
  it.each([
    ['1250', 125_000],
    ['1,250.00', 125_000],
    ['$1,250.00', 125_000],
    ['1.250,00 $', 125_000],
    ['USD 12.5', 1250],
    ['12.50 usd', 1250],
    ['1 250.00', 125_000],
    ["1'250.00", 125_000],
    ['1,234,567', 123_456_700],
    ['1.234.567', 123_456_700],
    ['12,5', 1250],
    ['.5', 50],
    ['0.05', 5],
    ['-3.20', -320],
    ['−3.20', -320],
    ['1,250', 125_000],
  ])('reads %s', (text, minor) => {
    expect(parseMoney(text, 'USD', point)).toEqual({ minor });
  });

  it('takes an empty field for nothing', () => {
    expect(parseMoney('  ', 'USD', point)).toEqual({ minor: null });
  });

  it('reads a lone mark as the reader is used to, and asks where it reads both ways', () => {
    expect(parseMoney('1.250', 'USD', comma)).toEqual({ minor: 125_000 });
    expect(parseMoney('1.250', 'USD', point)).toHaveProperty('problem', expect.stringContaining('1250'));
    expect(parseMoney('1,250', 'USD', comma)).toHaveProperty('problem', expect.stringContaining('comma'));
    expect(parseMoney('1.250', 'BHD', point)).toEqual({ minor: 1250 });
    expect(parseMoney('1,250', 'JPY', point)).toEqual({ minor: 1250 });
  });

  it.each([
    'abc',
    '1.2.3,4,5',
    '12,34,56',
    '1,25.00',
    '--3',
    '1-2',
    '1e5',
    '1.999',
    '12.5 EUR',
    '1.250,00 €',
    '12.5k',
    '2 x 45',
    '99999999999999999',
  ])('refuses %s with a sentence', text => {
    const parsed = parseMoney(text, 'USD', point);
    expect(parsed).toHaveProperty('problem');
    expect('problem' in parsed && parsed.problem.length).toBeGreaterThan(10);
  });

  it('reads back what is shown, in every locale it is shown in', () => {
    const amount = fc.integer({ min: -1_000_000_000, max: 1_000_000_000 });
    fc.assert(
      fc.property(
        amount,
        fc.constantFrom('USD', 'JPY', 'BHD'),
        fc.constantFrom('en-US', 'de', 'fr', 'tr', 'ja', 'de-CH'),
        (minor, currency, locale) => {
          expect(parseMoney(formatMinor(minor, currency, locale), currency, separatorsOf(locale))).toEqual({
            minor: minor === 0 ? 0 : minor,
          });
        },
      ),
    );
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearest } from '../../../db/import/cells/nearest.ts';
import { dateOrderOf, isAmbiguousDate, parseDate } from '../../../db/import/cells/parse-date.ts';
import { currencyOf, decimalSignOf, parseMoney } from '../../../db/import/cells/parse-money.ts';
import {
  parseBasePaint,
  parseFinishState,
  parseGrade,
  parseParts,
  parseRarity,
  parseYear,
} from '../../../db/import/cells/parse-words.ts';
import { cellText } from '../../../db/import/files/table.ts';
import { formatMinor } from '../../../valuation/money.ts';
import { grades } from '../../../valuation/words.ts';

const today = '2026-03-14';
const readAs = (outcome: { ok: boolean; value?: unknown; reason?: string }) =>
  outcome.ok ? outcome.value : `refused: ${outcome.reason}`;

describe('dates', () => {
  it.each([
    ['2021-03-14', '2021-03-14'],
    ['2021/3/4', '2021-03-04'],
    ['2021-03-14T09:26', '2021-03-14'],
    ['14.3.2021', '2021-03-14'],
    ['3/14/21', '2021-03-14'],
    ['14 Mar 2021', '2021-03-14'],
    ['14-Mar-21', '2021-03-14'],
    ['14. März 2021', '2021-03-14'],
    ['1er août 2020', '2020-08-01'],
    ['5 de enero de 2022', '2022-01-05'],
    ['March 3, 2022', '2022-03-03'],
    ['Mar 3rd 2022', '2022-03-03'],
    ['4.4.22', '2022-04-04'],
    ['14.3.68', '1968-03-14'],
  ])('reads %s', (text, iso) => {
    expect(readAs(parseDate(text, null, today))).toBe(iso);
  });

  it.each([
    ['31.2.2022', /calendar does not have/],
    ['2022-13-01', /calendar does not have/],
    ['15.3.2026', /lies in the future/],
    ['03/04/2021', /day first or month first/],
    ['last spring', /not a date/],
    ['2021', /not a date/],
  ])('refuses %s', (text, reason) => {
    expect(readAs(parseDate(text, null, today))).toMatch(reason);
  });

  it('that can be read two ways follow the order of their column', () => {
    expect(readAs(parseDate('03/04/2021', 'dmy', today))).toBe('2021-04-03');
    expect(readAs(parseDate('03/04/2021', 'mdy', today))).toBe('2021-03-04');
    expect([dateOrderOf('28/6/2021'), dateOrderOf('6/28/2021'), dateOrderOf('6/7/2021')]).toEqual([
      'dmy',
      'mdy',
      null,
    ]);
    expect([isAmbiguousDate('6/7/2021'), isAmbiguousDate('7/7/2021'), isAmbiguousDate('28/6/2021')]).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('of a spreadsheet are taken as days', () => {
    expect(readAs(parseDate(new Date(Date.UTC(2021, 2, 14)), null, today))).toBe('2021-03-14');
    expect(readAs(parseDate(new Date(Number.NaN), null, today))).toMatch(/no date/);
  });
});

describe('amounts', () => {
  it.each([
    ['$1,250.00', 'USD', 125000],
    ['1.250,00 €', 'EUR', 125000],
    ['1 250,5', 'EUR', 125050],
    ["1'250.00", 'CHF', 125000],
    ['12', 'USD', 1200],
    ['12.-', 'CHF', 1200],
    ['1,250', 'USD', 125000],
    ['1.250', 'USD', 125000],
    ['0.5', 'USD', 50],
    ['-3.20', 'USD', -320],
    ['(3.20)', 'USD', -320],
    ['¥ 1,250', 'JPY', 1250],
    ['1.250', 'BHD', 'refused: "1.250" can be read two ways in BHD; choose the decimal sign for this column'],
    ['12.345', 'JPY', 12345],
    ['1,234,567.89', 'USD', 123456789],
    ['make offer', 'USD', 'refused: "make offer" is not an amount such as 1,250.00'],
    ['10-12', 'USD', 'refused: "10-12" is more than one amount'],
    ['12.345,6,7', 'EUR', 'refused: "12.345,6,7" is not an amount such as 1,250.00'],
    ['12.347.1', 'USD', 'refused: "12.347.1" is not an amount such as 1,250.00'],
    ['1.234567', 'USD', 'refused: "1.234567" has more decimals than USD has (2)'],
  ])('%s in %s', (text, currency, expected) => {
    expect(readAs(parseMoney(text, currency, null))).toBe(expected);
  });

  it.each([
    ['12.345', 'USD', '.', 'refused: "12.345" has more decimals than USD has (2)'],
    ['12.340', 'USD', '.', 1234],
    ['12.345', 'USD', ',', 1234500],
    ['1,250', 'USD', '.', 125000],
    ['12.345', 'BHD', '.', 12345],
    ['12.345', 'JPY', '.', 'refused: "12.345" has more decimals than JPY has (0)'],
  ] as const)('%s in %s, in a column whose decimal sign is "%s"', (text, currency, sign, expected) => {
    expect(readAs(parseMoney(text, currency, sign))).toBe(expected);
  });

  it('of a spreadsheet are exact, and too fine ones refused', () => {
    expect(readAs(parseMoney(1250.1, 'USD', null))).toBe(125010);
    expect(readAs(parseMoney(0.1 + 0.2, 'USD', null))).toBe(30);
    expect(readAs(parseMoney(1e300, 'USD', null))).toMatch(/^refused/);
    expect(readAs(parseMoney(1.005, 'USD', null))).toMatch(/more decimals/);
  });

  it('come back as they were written, in every habit of writing', () => {
    const habits = ['en-US', 'de', 'fr', 'de-CH', 'en-IN'];
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 9_999_999_999 }),
        fc.constantFrom('USD', 'EUR', 'JPY'),
        fc.constantFrom(...habits),
        (minor, currency, locale) => {
          const written = formatMinor(minor, currency, locale);
          expect(parseMoney(written, currency, null)).toEqual({ ok: true, value: minor });
        },
      ),
      { seed: 7 },
    );
  });

  it('name their currency by code or sign', () => {
    expect(currencyOf('USD 12', 'EUR')).toBe('USD');
    expect(currencyOf('1.250,00 €', 'USD')).toBe('EUR');
    expect(currencyOf('£18', 'USD')).toBe('GBP');
    expect(currencyOf('$18', 'CAD')).toBe('CAD');
    expect(currencyOf('$18', 'EUR')).toBe('USD');
    expect(currencyOf('usd 12', 'EUR')).toBe('USD');
    expect(currencyOf('18 net', 'EUR')).toBeNull();
    expect(currencyOf('18 XQQ', 'EUR')).toBe('XQQ');
    expect(currencyOf('18', 'EUR')).toBeNull();
  });

  it('tell the decimal sign of their column where they leave no doubt', () => {
    expect(['1,5', '1.5', '1.250,00', '1,250.00', '1,250', '12', '1,250,000'].map(decimalSignOf)).toEqual([
      ',',
      '.',
      ',',
      '.',
      null,
      null,
      '.',
    ]);
  });
});

describe('words', () => {
  it('reads grades as people write them', () => {
    for (const grade of grades)
      for (const text of [
        `C${grade}`,
        `c ${grade}`,
        `${grade}`,
        `${grade}/10`,
        `${grade} / 10`,
        String(grade).replace('.', ','),
      ])
        expect(readAs(parseGrade(text))).toBe(grade);
    for (const text of ['7½', 'C7 ½', '7 1/2']) expect(readAs(parseGrade(text))).toBe(7.5);
    expect(readAs(parseGrade(7.5))).toBe(7.5);
    for (const text of ['C11', '0', '7.3', 'mint', '6-7', '', '7/5', '75'])
      expect(readAs(parseGrade(text))).toMatch(/^refused/);
    expect(readAs(parseGrade(new Date()))).toMatch(/turned this grade into a date/);
  });

  it('reads the closed words of the trade, and refuses others by naming them', () => {
    expect(readAs(parseFinishState('Repainted'))).toBe('restored');
    expect(readAs(parseFinishState('TOUCHED-UP'))).toBe('touched up');
    expect(readAs(parseFinishState('shiny'))).toMatch(/write one of: original/);
    expect(readAs(parseBasePaint('Rear-quarter'))).toBe('rear quarter');
    expect(readAs(parseBasePaint('bare'))).toBe('none');
    expect(readAs(parseRarity('very rare'))).toBe('rare');
    expect(readAs(parseParts('glass; wheels and roof'))).toEqual(['roof', 'glazing', 'wheels']);
    expect(readAs(parseParts('none'))).toEqual([]);
    expect(readAs(parseParts('engine'))).toMatch(/^refused/);
    expect([1969, '1969', "'69", '1969.0'].map(cell => readAs(parseYear(cell)))).toEqual([
      1969, 1969, 1969, 1969,
    ]);
    expect(readAs(parseYear('about 1970'))).toMatch(/not a year/);
  });

  it('finds the word that a mistyped one meant, and no far one', () => {
    expect(nearest('Peat Bnk', ['Ember', 'Peat Bank'])).toBe('Peat Bank');
    expect(nearest('Dasmon', ['Damson', 'Larch'])).toBe('Damson');
    expect(nearest('Blue', ['Damson', 'Larch'])).toBeNull();
    expect(nearest('Blue', [])).toBeNull();
  });

  it('takes off the mark that makes a cell inert, and nothing else', () => {
    expect(["'=1+1", "'-5", "'tis", '=1+1', ' a\u00a0b ', 'a\0b'].map(cellText)).toEqual([
      '=1+1',
      '-5',
      "'tis",
      '=1+1',
      'a b',
      'ab',
    ]);
  });
});

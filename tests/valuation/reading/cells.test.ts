import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellText } from '../../../db/import/files/cell-text.ts';
import { formatMinor } from '../../../valuation/money.ts';
import { dateOrderOf, isAmbiguousDate, readDate } from '../../../valuation/reading/date.ts';
import { currencyOfAmount, decimalSignOf, readMoney } from '../../../valuation/reading/money.ts';
import { nearest } from '../../../valuation/reading/nearest.ts';
import {
  readBasePaint,
  readFinishState,
  readGrade,
  readParts,
  readRarity,
  readYear,
} from '../../../valuation/reading/words.ts';
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
    ['Sun 14 Mar 2021', '2021-03-14'],
    ['Sonntag, 14. März 2021', '2021-03-14'],
    ['Mar 14, 2021', '2021-03-14'],
    ['dim. 14 mars 2021', '2021-03-14'],
    ['14th of March 2021', '2021-03-14'],
    ['14/3/21 09:26', '2021-03-14'],
    ['3/14/2021, 9:26:01 PM', '2021-03-14'],
    ['20210314', '2021-03-14'],
    ['14. März 2021', '2021-03-14'],
    ['1er août 2020', '2020-08-01'],
    ['5 de enero de 2022', '2022-01-05'],
    ['March 3, 2022', '2022-03-03'],
    ['Mar 3rd 2022', '2022-03-03'],
    ['4.4.22', '2022-04-04'],
    ['14.3.68', '1968-03-14'],
  ])('reads %s', (text, iso) => {
    expect(readAs(readDate(text, null, today))).toBe(iso);
  });

  it.each([
    ['31.2.2022', /calendar does not have/],
    ['2022-13-01', /calendar does not have/],
    ['15.3.2026', /is in the future/],
    ['03/04/2021', /day first or month first/],
    ['last spring', /not a date/],
    ['2021', /not a date/],
    ['20211399', /not a date/],
    ['Sun 03/04/2021', /day first or month first/],
    ['09:26', /not a date/],
  ])('refuses %s', (text, reason) => {
    expect(readAs(readDate(text, null, today))).toMatch(reason);
  });

  it('that can be read two ways follow the order of their column', () => {
    expect(readAs(readDate('03/04/2021', 'dmy', today))).toBe('2021-04-03');
    expect(readAs(readDate('03/04/2021', 'mdy', today))).toBe('2021-03-04');
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
    expect(readAs(readDate(new Date(Date.UTC(2021, 2, 14)), null, today))).toBe('2021-03-14');
    expect(readAs(readDate(new Date(Number.NaN), null, today))).toMatch(/not a date/);
  });
});

describe('amounts', () => {
  it.each([
    ['$1,250.00', 'USD', 125000],
    ['1.250,00 €', 'EUR', 125000],
    ['1 250,5', 'EUR', 125050],
    ["1'250.00", 'CHF', 125000],
    ['12', 'USD', 1200],
    ['US $23.50', 'EUR', 'refused: "US $23.50" is in USD, not in EUR'],
    ['US $23.50', 'USD', 2350],
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
    expect(readAs(readMoney(text, currency))).toBe(expected);
  });

  it.each([
    ['12.345', 'USD', '.', 'refused: "12.345" has more decimals than USD has (2)'],
    ['12.340', 'USD', '.', 1234],
    ['12.345', 'USD', ',', 1234500],
    ['1,250', 'USD', '.', 125000],
    ['12.345', 'BHD', '.', 12345],
    ['12.345', 'JPY', '.', 'refused: "12.345" has more decimals than JPY has (0)'],
  ] as const)('%s in %s, in a column whose decimal sign is "%s"', (text, currency, sign, expected) => {
    expect(readAs(readMoney(text, currency, { chosen: sign }))).toBe(expected);
  });

  it('of a spreadsheet are exact, and too fine ones refused', () => {
    expect(readAs(readMoney(1250.1, 'USD'))).toBe(125010);
    expect(readAs(readMoney(0.1 + 0.2, 'USD'))).toBe(30);
    expect(readAs(readMoney(1e300, 'USD'))).toMatch(/^refused/);
    expect(readAs(readMoney(1.005, 'USD'))).toMatch(/more decimals/);
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
          expect(readMoney(written, currency)).toEqual({ ok: true, value: minor });
        },
      ),
    );
  });

  it.each([
    '1e3',
    'ca. 45',
    '£1 10s 6d',
    '2 x 45',
    '1.2k',
    '45 each',
    '~45',
    '45?',
    '45*',
    '50 cents',
    '12 50',
    '1,25.00',
    '#45',
    '45%',
    '45/50',
    '1 1/2',
    '½',
    '45 USD EUR',
    '$',
    'USD',
    '',
    '(45',
    '--45',
    '45.00.00',
    '٤٥',
    '1_000',
    'Nov 45',
    '45 or so',
    '45+5',
    `${'9'.repeat(500)}`,
    '0x2d',
    '1,23,4',
    '45 net',
    '£45 ono',
  ])('%s, which is not wholly understood, is none', text => {
    expect(readAs(readMoney(text, 'USD'))).toMatch(/^refused/);
    expect(readAs(readMoney(text, 'GBP'))).toMatch(/^refused/);
  });

  it.each([
    ['R$ 45', 'BRL'],
    ['HK$45', 'HKD'],
    ['₹ 45', 'INR'],
    ['45 zł', 'PLN'],
    ['45円', 'JPY'],
    ['45 Kč', 'CZK'],
    ['US$45', 'USD'],
    ['$45 CAD', 'CAD'],
    ['CHF 45.-', 'CHF'],
    ['Fr. 45', 'CHF'],
    ['45 euros', 'EUR'],
    ['£18', 'GBP'],
    ['usd 12', 'USD'],
    ['$18', 'USD'],
    ['¥45', 'JPY'],
    ['￥４５', 'JPY'],
    ['A$ 45', 'AUD'],
  ])('%s is in %s, and in nothing else', (text, currency) => {
    expect(currencyOfAmount(text, 'EUR')).toBe(currency);
    expect(readMoney(text, currency)).toMatchObject({ ok: true });
    expect(readAs(readMoney(text, 'THB'))).toMatch(/^refused/);
  });

  it('name a currency that several share only where it is the reader’s own', () => {
    expect([currencyOfAmount('45 kr', 'SEK'), currencyOfAmount('kr 45', 'DKK')]).toEqual(['SEK', 'DKK']);
    for (const text of ['45 kr', '45 ¤', '45 XQQ', 'Rs 45', '45 ₡']) {
      expect(currencyOfAmount(text, 'USD')).toBeNull();
      expect(readAs(readMoney(text, 'USD'))).toMatch(/which currency .* cannot be told/);
    }
    expect(currencyOfAmount('$18', 'CAD')).toBe('CAD');
    expect(currencyOfAmount('45', 'EUR')).toBe('none');
    // A word in small letters is no code of its name.
    expect(readAs(readMoney('all 45', 'USD'))).toMatch(/"all" is not understood/);
  });

  it('with a lone sign before three digits are thousands, whatever their column usually has', () => {
    expect(readAs(readMoney('$2,400', 'USD', { usual: ',' }))).toBe(240000);
    expect(readAs(readMoney('€ 1.250', 'EUR', { usual: '.' }))).toBe(125000);
    expect(readAs(readMoney('0.125', 'USD', { usual: '.' }))).toMatch(/more decimals/);
    expect(readAs(readMoney('1.250', 'BHD', { usual: '.' }))).toBe(1250);
    expect(readAs(readMoney('1.250', 'BHD', { usual: ',' }))).toBe(1250000);
    expect(readAs(readMoney('2,400', 'USD', { chosen: ',' }))).toBe(240);
    expect(readAs(readMoney('1.250', 'USD', { usual: '.', ask: true }))).toMatch(/Is 1.250 meant as 1250/);
  });

  it('of a spreadsheet are in the currency whose sign their format shows', () => {
    expect(currencyOfAmount({ number: 45, sign: '€' }, 'USD')).toBe('EUR');
    expect(readAs(readMoney({ number: 45, sign: '€' }, 'EUR'))).toBe(4500);
    expect(readAs(readMoney({ number: 45, sign: 'kr' }, 'USD'))).toMatch(/cannot be told/);
    expect(readAs(readMoney({ number: 45, sign: '€' }, 'USD'))).toMatch(/in EUR, not in USD/);
  });

  it('tell the decimal sign of their column where they leave no doubt', () => {
    expect(['1,5', '1.5', '1.250,00', '1,250.00', '1,250', '12', '1,250,000'].map(decimalSignOf)).toEqual([
      ',',
      '.',
      ',',
      '.',
      'both',
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
        expect(readAs(readGrade(text))).toBe(grade);
    for (const text of ['7½', 'C7 ½', '7 1/2']) expect(readAs(readGrade(text))).toBe(7.5);
    expect(readAs(readGrade(7.5))).toBe(7.5);
    for (const text of ['C11', '0', '7.3', 'mint', '6-7', '', '7/5', '75'])
      expect(readAs(readGrade(text))).toMatch(/^refused/);
    expect(readAs(readGrade(new Date()))).toMatch(/turned this grade into a date/);
  });

  it('reads the closed words of the trade, and refuses others by naming them', () => {
    for (const text of ['Repainted', 'repaint', 'overpainted', 'repeint', 'repainted by someone'])
      expect(readAs(readFinishState(text))).toMatch(/used for more than one finish: say which/);
    for (const text of ["d'origine", 'Originallack']) expect(readAs(readFinishState(text))).toBe('original');
    expect(readFinishState('restored')).toEqual({ ok: true, value: 'restored' });
    for (const text of ['bare', 'bare metal']) expect(readAs(readFinishState(text))).toMatch(/^refused/);
    expect(readAs(readFinishState('TOUCHED-UP'))).toBe('touched up');
    expect(readAs(readFinishState('shiny'))).toMatch(/write one of: original/);
    expect(readAs(readBasePaint('Rear-quarter'))).toBe('rear quarter');
    expect(readAs(readBasePaint('bare'))).toBe('none');
    for (const text of ['back quarter', 'rear 1/4']) expect(readAs(readBasePaint(text))).toBe('rear quarter');
    for (const text of ['complete', 'whole', 'fully painted', 'all'])
      expect(readAs(readBasePaint(text))).toBe('full');
    for (const text of [
      'painted front',
      'frt painted',
      'front of base painted',
      'vorne lackiert',
      'avant peint',
    ])
      expect(readAs(readBasePaint(text))).toBe('front quarter');
    for (const text of ['rear painted', 'painted rear', 'rear ptd', 'hinten lackiert', 'arrière peint'])
      expect(readAs(readBasePaint(text))).toBe('rear quarter');
    for (const text of ['painted', 'rear', 'front', 'back', 'plain', 'blank', 'front and rear painted'])
      expect(readAs(readBasePaint(text))).toMatch(/^refused/);
    expect(readAs(readRarity('very rare'))).toBe('rare');
    expect(readAs(readParts('glass; wheels and roof'))).toEqual(['roof', 'glazing', 'wheels']);
    expect(readAs(readParts('none'))).toEqual([]);
    expect(readAs(readParts('engine'))).toMatch(/^refused/);
    expect([1969, '1969', "'69", '1969.0'].map(cell => readAs(readYear(cell)))).toEqual([
      1969, 1969, 1969, 1969,
    ]);
    expect(['68', '’40', '99'].map(cell => readAs(readYear(cell)))).toEqual([1968, 1940, 1999]);
    for (const text of ['about 1970', '05', "'12", '680'])
      expect(readAs(readYear(text))).toMatch(/not a year/);
  });

  it('finds the word that a mistyped one meant, and no far one', () => {
    expect(nearest('Peat Bnk', ['Ember', 'Peat Bank'])).toBe('Peat Bank');
    expect(nearest('Dasmon', ['Damson', 'Larch'])).toBe('Damson');
    expect(nearest('Blue', ['Damson', 'Larch'])).toBeNull();
    expect(nearest('Blue', [])).toBeNull();
  });

  it('takes a cell as the text that it shows', () => {
    expect([' a\u00a0b ', 'a\0b', "'tis", 0.1 + 0.2, { number: 45, sign: '€' }].map(cellText)).toEqual([
      'a b',
      'ab',
      "'tis",
      '0.3',
      '45 €',
    ]);
  });
});

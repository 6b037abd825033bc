import { describe, expect, it } from 'vitest';
import { featureNames } from '../../../valuation/wording/cars/feature-names.ts';
import { dialect } from '../../../valuation/wording/dialect.ts';
import {
  casesText,
  counted,
  dayText,
  moneyText,
  numberText,
  percentText,
  signedText,
} from '../../../valuation/wording/reader.ts';
import { optionWords, recommendationWord } from '../../../valuation/wording/values/option-words.ts';
import { recommendations, variationFeatures } from '../../../valuation/words.ts';

describe('the dialect of a locale', () => {
  it.each(['en-US', 'en', 'en-PH', 'en-US-u-nu-latn', 'not a tag!'])('is American for %s', locale => {
    expect(dialect(locale)).toMatchObject({ colour: 'color', carriage: 'shipping', customise: 'customize' });
  });
  it.each(['en-GB', 'en-AU', 'en-IE', 'en-CA', 'de-DE', 'es-US'])('is British for %s', locale => {
    expect(dialect(locale)).toMatchObject({ colour: 'colour', carriage: 'carriage', customise: 'customise' });
  });
  it('has a word of each for every entry, and they differ', () => {
    const british = Object.entries(dialect('en-GB'));
    for (const [key, word] of british) {
      expect(word).not.toBe('');
      expect(dialect('en-US')).toHaveProperty(key);
      expect(Object.entries(dialect('en-US'))).not.toContainEqual([key, word]);
    }
  });
});

describe('the words of options and features', () => {
  it('are spelled as the reader spells', () => {
    expect(optionWords('customise', 'en-GB')).toEqual({
      name: 'customise',
      verb: 'Customise it',
      infinitive: 'customise',
      doing: 'customising',
      doingIt: 'customising it',
    });
    expect(optionWords('customise', 'en-US').verb).toBe('Customize it');
    expect(optionWords('donor', 'de-DE').verb).toBe('Use it for parts');
    expect(featureNames('en-US').colour).toBe('Color');
    expect(featureNames('de-DE').colour).toBe('Colour');
  });
  it.each(['en-US', 'de-DE'])('are there for every one, each another, in %s', locale => {
    const words = recommendations.map(recommendation => recommendationWord(recommendation, locale));
    expect(new Set(words).size).toBe(recommendations.length);
    const names = variationFeatures.map(feature => featureNames(locale)[feature]);
    expect(new Set(names).size).toBe(variationFeatures.length);
  });
});

describe('figures in a sentence', () => {
  it('are written as the reader writes them, with the decimals of the currency', () => {
    expect(moneyText(123_456, { locale: 'en-US', currency: 'USD' })).toBe('1,234.56');
    expect(moneyText(123_456, { locale: 'de-DE', currency: 'USD' })).toBe('1.234,56');
    expect(moneyText(123_456, { locale: 'en-US', currency: 'JPY' })).toBe('123,456');
    expect(moneyText(-123_456, { locale: 'de-DE', currency: 'JPY' })).toBe('−123.456');
    expect(signedText(700, { locale: 'de-DE', currency: 'USD' })).toBe('+7,00');
    expect(signedText(-700, { locale: 'en-US', currency: 'JPY' })).toBe('−700');
    expect(numberText(3.46, 1, 'de-DE')).toBe('3,5');
    expect(numberText(3.46, 1, 'en-US')).toBe('3.5');
  });
  it('have days in the order of the reader', () => {
    expect(dayText('2026-03-14', 'en-US')).toBe('Mar 14, 2026');
    expect(dayText('2026-03-14', 'en-GB')).toBe('14 Mar 2026');
    expect(dayText('sometime', 'en-GB')).toBe('sometime');
  });
  it('count in the singular and the plural', () => {
    expect([0, 1, 2].map(count => counted(count, 'sale'))).toEqual(['0 sales', '1 sale', '2 sales']);
    expect(counted(2, 'car has', 'cars have')).toBe('2 cars have');
    expect(counted(12_500, 'car')).toBe('12,500 cars');
    expect(counted(12_500, 'car', 'cars', 'de-DE')).toBe('12.500 cars');
  });
  it('do not call certain what is nearly so', () => {
    expect([0, 0.001, 0.5, 0.999, 1].map(percentText)).toEqual(['0 %', '< 1 %', '50 %', '> 99 %', '100 %']);
    expect([0, 0.001, 0.5, 0.999, 1].map(casesText)).toEqual([
      '0 of 100 cases',
      'fewer than 1 of 100 cases',
      '50 of 100 cases',
      'more than 99 of 100 cases',
      '100 of 100 cases',
    ]);
  });
});

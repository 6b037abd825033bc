import { formatMinor } from '../money.ts';
import type { Currency, IsoDate, Minor } from '../types.ts';

/**
 * Who reads a sentence: the BCP 47 tag of their number, date and spelling habits, and the
 * currency of its amounts.
 */
export interface Reader {
  locale: string;
  currency: Currency;
}

/** What the command line and programs that read its output are given, whatever the machine is set to. */
export const plainLocale = 'en-US';

const trueMinus = (text: string): string => text.replace('-', '−');

/** An amount in full, without its currency: "1,250.00". */
export const moneyText = (minor: Minor, { locale, currency }: Reader): string =>
  trueMinus(formatMinor(minor, currency, locale));

/** An amount with its sign: "+12.00", "−3.50". */
export const signedText = (minor: Minor, reader: Reader): string =>
  `${minor < 0 ? '−' : '+'}${moneyText(Math.abs(minor), reader)}`;

/** A share 0…1 as "73 %"; never "100 %" or "0 %" for what is only nearly so. */
export const percentText = (share: number): string => {
  const percent = Math.round(share * 100);
  if (percent === 100 && share < 1) return '> 99 %';
  if (percent === 0 && share > 0) return '< 1 %';
  return `${percent} %`;
};

/** A chance 0…1 as a count of cases: "90 of 100 cases", "more than 99 of 100 cases". */
export const casesText = (chance: number): string => {
  const cases = Math.round(chance * 100);
  if (cases === 100 && chance < 1) return 'more than 99 of 100 cases';
  if (cases === 0 && chance > 0) return 'fewer than 1 of 100 cases';
  return `${cases} of 100 cases`;
};

const numbers = new Map<string, Intl.NumberFormat>();

/** A number with a fixed count of decimals: "3.5", "3,5". */
export const numberText = (value: number, decimals: number, locale: string): string => {
  const key = `${locale} ${decimals}`;
  const options = { minimumFractionDigits: decimals, maximumFractionDigits: decimals };
  const format = numbers.get(key) ?? new Intl.NumberFormat(locale, options);
  numbers.set(key, format);
  return trueMinus(format.format(value));
};

const days = new Map<string, Intl.DateTimeFormat>();

/** "14 Mar 2026" in the reader's order; a text that is no date is given back as it is. */
export const dayText = (date: IsoDate, locale: string): string => {
  const parsed = new Date(`${date.slice(0, 10)}T00:00:00Z`);
  if (Number.isNaN(parsed.getTime())) return date;
  const format =
    days.get(locale) ??
    new Intl.DateTimeFormat(locale, { timeZone: 'UTC', day: 'numeric', month: 'short', year: 'numeric' });
  days.set(locale, format);
  return format.format(parsed);
};

/** "1 sale", "4 sales", "1,250 sales". */
export const counted = (count: number, one: string, many = `${one}s`, locale = plainLocale): string =>
  `${numberText(count, 0, locale)} ${count === 1 ? one : many}`;

/** The text with its first letter large, as a sentence begins. */
export const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

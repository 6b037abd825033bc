import { currencyDecimals, formatMinor } from '../../valuation/money.ts';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import { counted as countedFor, dayText } from '../../valuation/wording/reader.ts';

export { percentText } from '../../valuation/wording/reader.ts';

/** The reader's own number and date habits, always with Western figures so that columns line up. */
export const readerLocale = (): string => {
  const language = typeof navigator === 'undefined' ? 'en-US' : navigator.language || 'en-US';
  try {
    return new Intl.Locale(language, { numberingSystem: 'latn' }).toString();
  } catch {
    return 'en-US';
  }
};

const trueMinus = (text: string): string => text.replace('-', '−');

/** An amount with all its decimals, without the currency: "1,250.00". */
export const amountText = (minor: Minor, currency: Currency): string =>
  trueMinus(formatMinor(minor, currency, readerLocale()));

/** An estimate as precise as it deserves: whole units from 20 up, decimals below. */
export const worthText = (minor: Minor, currency: Currency): string => {
  const major = Math.abs(minor) / 10 ** currencyDecimals(currency);
  return trueMinus(formatMinor(Math.round(minor), currency, readerLocale(), major >= 20 ? 0 : undefined));
};

/** A round amount on an axis, with no more decimals than it needs: "5", "10", "0.50". */
export const axisText = (minor: Minor, currency: Currency): string => {
  const whole = minor % 10 ** currencyDecimals(currency) === 0;
  return formatMinor(minor, currency, readerLocale(), whole ? 0 : undefined);
};

/** A change with its sign: "+12.00", "−3.50", "±0". */
export const deltaText = (minor: Minor, currency: Currency): string => {
  if (minor === 0) return '±0';
  return `${minor > 0 ? '+' : '−'}${worthText(Math.abs(minor), currency)}`;
};

/** "1 car", "12,500 cars". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  countedFor(count, one, many, readerLocale());

/** "14 Mar 2026" in the reader's order; a text that is no date is shown as it is. */
export const dateText = (date: IsoDate): string => dayText(date, readerLocale());

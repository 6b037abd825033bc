import { currencyTable } from './currencies.ts';
import type { Currency, Minor } from './types.ts';

/** Every currency that an amount can be in, by its ISO 4217 code; some withdrawn ones included. */
export const currencies: readonly Currency[] = [...currencyTable.keys()].sort();

/**
 * True for the ISO 4217 code of a currency that an amount can be in. Whatever takes a currency from
 * outside asks this.
 */
export const isCurrency = (code: string): boolean => currencyTable.has(code);

/** What to say of a code that `isCurrency` does not know. */
export const unknownCurrency = (code: string): string =>
  `"${code}" is not a currency of ISO 4217; write its three-letter code, such as USD`;

/**
 * Number of decimals of a currency: USD 2, JPY 0, BHD 3. Throws RangeError when ISO 4217 has
 * no such currency.
 */
export const currencyDecimals = (currency: Currency): number => {
  const decimals = currencyTable.get(currency);
  if (decimals === undefined) throw new RangeError(unknownCurrency(currency));
  return decimals;
};

/**
 * The step in which cash is planned and priced: ten of a currency with decimals, a thousand of one without,
 * whose unit is small. USD 10.00, BHD 10.000, JPY 1,000.
 */
export const cashStep = (currency: Currency): Minor => Math.max(1000, 10 * 10 ** currencyDecimals(currency));

/**
 * Decimal string of an amount, such as "-1250.00": no grouping, a point, as many decimals as
 * the currency has.
 */
export const minorToDecimal = (minor: Minor, currency: Currency): string => {
  if (!Number.isSafeInteger(minor)) throw new RangeError(`${minor} is not a whole number of minor units`);
  const decimals = currencyDecimals(currency);
  const digits = String(Math.abs(minor)).padStart(decimals + 1, '0');
  const sign = minor < 0 ? '-' : '';
  return decimals === 0 ? sign + digits : `${sign}${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
};

/**
 * Minor units of a decimal string such as "1250", "1250.5" or "-0.05".
 * Throws RangeError on anything else, on more decimals than the currency has, and beyond 2^53.
 */
export const decimalToMinor = (text: string, currency: Currency): Minor => {
  const decimals = currencyDecimals(currency);
  const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text.trim());
  if (!match) throw new RangeError(`"${text}" is not an amount such as 1250.00`);
  const [, sign, whole, fraction = ''] = match;
  if (fraction.replace(/0+$/, '').length > decimals)
    throw new RangeError(`"${text}" has more decimals than ${currency} has (${decimals})`);
  const minor = Number(whole + fraction.slice(0, decimals).padEnd(decimals, '0'));
  if (!Number.isSafeInteger(minor)) throw new RangeError(`"${text}" is too large an amount`);
  return sign && minor !== 0 ? -minor : minor;
};

/**
 * An amount for reading: "1,250.00" grouped by the locale, without the currency, which stands
 * once in the heading.
 */
export const formatMinor = (
  minor: Minor,
  currency: Currency,
  locale = 'en-US',
  decimals?: number,
): string => {
  const shown = decimals ?? currencyDecimals(currency);
  return numberFormat(locale, shown).format(minor / 10 ** currencyDecimals(currency));
};

const formats = new Map<string, Intl.NumberFormat>();

/** Making a format takes far longer than using it, and a grid writes thousands of amounts. */
const numberFormat = (locale: string, decimals: number): Intl.NumberFormat => {
  const key = `${locale} ${decimals}`;
  const known = formats.get(key);
  if (known) return known;
  const made = new Intl.NumberFormat(locale, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  });
  formats.set(key, made);
  return made;
};

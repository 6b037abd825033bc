import { currencyDecimals } from '../../../valuation/money.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';
import type { Cell, DecimalSign } from '../types.ts';
import { type Parsed, parsed, refused } from './parse-date.ts';

const symbols: Record<string, Currency> = {
  '€': 'EUR',
  '£': 'GBP',
  '¥': 'JPY',
  '₤': 'GBP',
  US$: 'USD',
  C$: 'CAD',
  A$: 'AUD',
};
const dollars = new Set(['USD', 'CAD', 'AUD', 'NZD', 'SGD', 'HKD', 'MXN']);

const smallCodes = new Set([
  'USD',
  'EUR',
  'GBP',
  'JPY',
  'CAD',
  'AUD',
  'NZD',
  'CHF',
  'SEK',
  'NOK',
  'DKK',
  'PLN',
]);

/** The currency that a text names: a code, a sign, or words such as "dollars"; null where it names none. */
export const currencyOf = (text: string, fallback: Currency): Currency | null => {
  const code = /\b[A-Z]{3}\b/.exec(text)?.[0];
  if (code) return code;
  // In small letters a word such as "all" or "net" is likelier than the code of that name.
  const small = /\b[a-z]{3}\b/i.exec(text)?.[0].toUpperCase();
  if (small && smallCodes.has(small)) return small;
  for (const [sign, currency] of Object.entries(symbols)) if (text.includes(sign)) return currency;
  if (text.includes('$')) return dollars.has(fallback) ? fallback : 'USD';
  return null;
};

const digits = (text: string): string => text.replace(/[^\d.,'’\-()]/g, '').replace(/['’]/g, '');

/** What an amount says of the decimal sign of its column, or null where it says nothing. */
export const decimalSignOf = (cell: Cell): DecimalSign | null => {
  if (typeof cell !== 'string') return null;
  const text = digits(cell).replace(/[-()]/g, '').replace(/[.,]$/, '');
  const comma = text.lastIndexOf(',');
  const point = text.lastIndexOf('.');
  if (comma >= 0 && point >= 0) return comma > point ? ',' : '.';
  const sign = comma >= 0 ? ',' : point >= 0 ? '.' : null;
  if (!sign) return null;
  const last = text.length - 1 - text.lastIndexOf(sign);
  const once = text.indexOf(sign) === text.lastIndexOf(sign);
  if (once && last !== 3) return sign;
  return once ? null : sign === ',' ? '.' : ',';
};

/**
 * Minor units of an amount as people write it: `$1,250.00`, `1.250,00 €`, `1 250`, `12`. A sign that groups thousands by
 * threes is told from a decimal sign by the amount itself; where it cannot (`1.250`) by `decimal`, the sign of its column;
 * without one it groups thousands, and is refused for a currency with three decimals. Negative and zero amounts are left to
 * the caller.
 */
export const parseMoney = (cell: Cell, currency: Currency, decimal: DecimalSign | null): Parsed<Minor> => {
  let decimals: number;
  try {
    decimals = currencyDecimals(currency);
  } catch (error) {
    return refused((error as Error).message);
  }
  if (typeof cell === 'number')
    return exact(cell.toFixed(Math.min(decimals + 4, 12)), decimals, String(cell), currency);
  const shown = String(cell ?? '').trim();
  const wrong = refused(`"${shown}" is not an amount such as 1,250.00`);
  if (/\d\s*[-–/]\s*\d/.test(shown)) return refused(`"${shown}" is more than one amount`);
  let text = digits(shown.replace(/[\s\u00a0\u202f]/g, '')).replace(/[.,]-*$/, '');
  const negative = /^[-(]/.test(text);
  text = text.replace(/[-()]/g, '');
  if (
    !/^[\d.,]*\d$/.test(text) ||
    /[A-Za-z]{4,}/.test(shown.replace(/dollars?|euros?|pounds?|pence|cents?/gi, ''))
  )
    return wrong;
  let sign = decimalSignOf(text);
  if (!sign && /[.,]/.test(text)) {
    // One sign with three digits behind it: what its column makes of it, else a group of thousands, unless the currency has
    // three decimals.
    const own = text.includes(',') ? ',' : '.';
    if (decimals >= 3 && !decimal)
      return refused(
        `"${shown}" can be read two ways in ${currency}; choose the decimal sign for this column`,
      );
    sign = decimal ?? (own === ',' ? '.' : ',');
  } else if (sign && decimal && sign !== decimal && !(text.includes(',') && text.includes('.'))) {
    return refused(`"${shown}" does not fit the decimal sign "${decimal}" chosen for this column`);
  }
  const group = sign === ',' ? '.' : ',';
  const [whole = '', fraction = '', ...more] = text.split(sign ?? '.');
  if (more.length || fraction.includes(group) || !/^(\d+|\d{1,3}([.,]\d{2,3})*[.,]\d{3})$/.test(whole || '0'))
    return wrong;
  return exact(
    `${negative ? '-' : ''}${(whole || '0').replaceAll(group, '')}.${fraction}`,
    decimals,
    shown,
    currency,
  );
};

const exact = (number: string, decimals: number, shown: string, currency: Currency): Parsed<Minor> => {
  const match = /^(-?)(\d+)\.?(\d*)$/.exec(number);
  if (!match) return refused(`"${shown}" is not an amount such as 1,250.00`);
  const [, minus, whole = '', fraction = ''] = match;
  if (/[1-9]/.test(fraction.slice(decimals)))
    return refused(`"${shown}" has more decimals than ${currency} has (${decimals})`);
  const minor = Number(whole + fraction.slice(0, decimals).padEnd(decimals, '0'));
  if (!Number.isSafeInteger(minor)) return refused(`"${shown}" is too large an amount`);
  return parsed(minus && minor ? -minor : minor);
};

import { currencyDecimals, decimalToMinor } from '../../../valuation/money.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';

export type ParsedMoney = { minor: Minor | null } | { problem: string };

export interface Separators {
  decimal: string;
  group: string;
}

/** The separators of a locale: "." and "," for en-US, "," and "." for de. */
export const separatorsOf = (locale: string): Separators => {
  const parts = new Intl.NumberFormat(locale, { minimumFractionDigits: 2 }).formatToParts(12345.67);
  const find = (type: string) => parts.find(part => part.type === type)?.value;
  return { decimal: find('decimal') ?? '.', group: find('group') ?? ',' };
};

const isGrouped = (whole: string, group: string): boolean =>
  new RegExp(`^\\d{1,3}(\\${group}\\d{3})+$`).test(whole);

/** Which of "." and "," parts the decimals in `digits`, or a sentence that asks. */
const decimalMark = (
  digits: string,
  decimals: number,
  locale: Separators,
): string | { problem: string } | null => {
  const marks = [...digits].filter(sign => sign === '.' || sign === ',');
  const last = marks.at(-1);
  if (last === undefined) return null;
  const kinds = new Set(marks);
  if (kinds.size === 2) return last;
  // The same mark twice can only group thousands.
  if (marks.length > 1) return last === '.' ? ',' : '.';
  const after = digits.length - digits.indexOf(last) - 1;
  if (after !== 3 || decimals === 3) return last;
  const usual = locale.decimal === '.' || locale.decimal === ',' ? locale.decimal : '.';
  if (last !== usual) return usual;
  return {
    problem: `Is ${digits} meant as ${digits.replace(last, '')}? Write it without the ${last === '.' ? 'point' : 'comma'}.`,
  };
};

/**
 * An amount as someone types it ("1250", "1,250.00", "1.250,00 €", "USD 12.5") in minor units; empty is null. Where a mark
 * could part thousands or decimals, the reader's own habit decides, and what still reads both ways is refused with a sentence.
 */
export const parseMoney = (text: string, currency: Currency, locale: Separators): ParsedMoney => {
  const bare = text
    .replaceAll(/[\p{Sc}\s\u00a0\u202f'’]/gu, '')
    .replace(new RegExp(`^${currency}|${currency}$`, 'i'), '')
    .replace('−', '-');
  if (bare === '') return { minor: null };
  if (!/^-?[\d.,]*\d[\d.,]*$/.test(bare))
    return { problem: `“${text.trim()}” is not an amount such as 1250.00` };
  const sign = bare.startsWith('-') ? '-' : '';
  const digits = bare.replace('-', '');
  const decimals = currencyDecimals(currency);
  const mark = decimalMark(digits, decimals, locale);
  if (mark !== null && typeof mark === 'object') return mark;
  const at = mark === null ? -1 : digits.lastIndexOf(mark);
  const whole = at === -1 ? digits : digits.slice(0, at);
  const fraction = at === -1 ? '' : digits.slice(at + 1);
  const group = mark === '.' ? ',' : '.';
  if (/[.,]/.test(fraction) || (/[.,]/.test(whole) && !isGrouped(whole, group)))
    return { problem: `“${text.trim()}” is not an amount such as 1250.00` };
  const plain = `${sign}${whole.replaceAll(/[.,]/g, '') || '0'}${fraction ? `.${fraction}` : ''}`;
  try {
    return { minor: decimalToMinor(plain, currency) };
  } catch (error) {
    return { problem: error instanceof Error ? error.message : String(error) };
  }
};

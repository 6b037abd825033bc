import { currencyDecimals, unknownCurrency } from '../money.ts';
import type { Currency, Minor } from '../types.ts';
import { currencyNamed, looksLikeCurrency } from './currency.ts';
import { type Cell, isAmountCell, notUnderstood, type Reading, shownNumber, understood } from './reading.ts';

export const decimalSigns = [',', '.'] as const;
export type DecimalSign = (typeof decimalSigns)[number];

/** An amount taken apart: its figures as they were written, and what stands before or behind them. */
interface Amount {
  negative: boolean;
  /** Digits with the signs that group or part them, no spaces at the ends. */
  figures: string;
  /** A currency as it was written, or ''. */
  named: string;
}

/** Full-width digits and signs, and the odd spaces and dashes, as their plain ones. */
const plainSigns = (text: string): string =>
  /^[ -~]*$/.test(text)
    ? text
    : text
        .replace(/[\uff01-\uff5e]/g, sign => String.fromCharCode(sign.charCodeAt(0) - 0xfee0))
        .replaceAll('\uffe5', '¥')
        .replaceAll('\uffe1', '£')
        .replace(/[\u00a0\u2009\u202f]/g, ' ')
        .replace(/[\u2018\u2019]/g, "'")
        .replace(/[\u2212\u2013\u2014]/g, '-');

const shape =
  /^(\(?)(-?) ?([^\d\s.,()+\-'=~#*/%:;<>"][^\d()+\-=~#*/%:;<>"]{0,20}?)? ?(\(?)(-?)((?:\d[\d.,' ]*)?\d|[.,]\d+)(?:[.,]?-{1,2}|[.,])? ?([^\d\s.,()+\-'=~#*/%:;<>"][^\d()+\-=~#*/%:;<>"]{0,20})?(\)?)$/u;

const longestAmount = 60;

/** The parts of an amount, null where any of the text is no part of one. */
const amountIn = (text: string): Amount | null => {
  const match = text.length > longestAmount ? null : shape.exec(text);
  if (!match) return null;
  const [, open, minus, before = '', inner, innerMinus, figures = '', after = '', close] = match;
  const brackets = (open ? 1 : 0) + (inner ? 1 : 0);
  if (brackets !== (close ? 1 : 0) || (minus && innerMinus) || (brackets && (minus || innerMinus)))
    return null;
  if (before && after && before.trim().toLowerCase() === after.trim().toLowerCase()) return null;
  return {
    negative: !!(brackets || minus || innerMinus),
    figures: figures.trim(),
    named: before && after ? `${before.trim()}\n${after.trim()}` : (before || after).trim(),
  };
};

/** The currency that an amount names: 'none' where it names none, null where nobody can tell which it is. */
const namedIn = (named: string, own: Currency): Currency | 'none' | null => {
  if (named === '') return 'none';
  const [first = '', second] = named.split('\n');
  if (second === undefined) return currencyNamed(first, own);
  // "$45 CAD": the code says which dollar.
  const code = currencyNamed(second, own) ?? currencyNamed(first, own);
  if (code === null) return null;
  return currencyNamed(first, code) === code && currencyNamed(second, code) === code ? code : null;
};

/**
 * The currency that the text of an amount names: 'none' where it names none, null where that
 * is not to be told.
 */
export const currencyOfAmount = (cell: Cell, own: Currency): Currency | 'none' | null => {
  if (isAmountCell(cell)) return currencyNamed(cell.sign, own);
  if (typeof cell !== 'string') return 'none';
  const text = plainSigns(cell).trim();
  if (/^[\d.,]*$/.test(text)) return 'none';
  const amount = amountIn(text);
  return amount ? namedIn(amount.named, own) : 'none';
};

/** What stands for a currency beside an amount, '' where nothing does; null for what is no amount. */
export const signOfAmount = (cell: Cell): string | null => {
  if (isAmountCell(cell)) return cell.sign;
  if (typeof cell === 'number') return '';
  return typeof cell === 'string' ? (amountIn(plainSigns(cell).trim())?.named ?? null) : null;
};

const grouped = /^\d{1,3}([.,' ]\d{2,3})*[.,' ]\d{3}$/;
const groupsOf = (whole: string): number => new Set(whole.replace(/\d/g, '')).size;

/**
 * Where the figures have one point or comma with three digits behind it, which may group thousands
 * or part decimals.
 */
const loneSign = (figures: string): DecimalSign | null =>
  (/^[1-9]\d{0,2}([.,])\d{3}$/.exec(figures)?.[1] as DecimalSign | undefined) ?? null;

/**
 * The decimal sign that the figures show by themselves: null where they have none, 'both' where they can
 * be read two ways.
 */
const ownSign = (figures: string): DecimalSign | 'both' | null => {
  if (/^\d*$/.test(figures)) return null;
  if (loneSign(figures)) return 'both';
  const comma = figures.lastIndexOf(',');
  const point = figures.lastIndexOf('.');
  if (comma >= 0 && point >= 0) return comma > point ? ',' : '.';
  const sign = comma >= 0 ? ',' : point >= 0 ? '.' : null;
  // The same sign twice can only group thousands.
  return sign && figures.indexOf(sign) !== figures.lastIndexOf(sign) ? null : sign;
};

/**
 * What an amount says of the decimal sign of its column; 'both' where it has a lone sign with three
 * digits behind it.
 */
export const decimalSignOf = (cell: Cell): DecimalSign | 'both' | null => {
  if (typeof cell !== 'string') return null;
  const figures = amountIn(plainSigns(cell).trim())?.figures;
  if (figures === undefined) return null;
  const sign = ownSign(figures);
  if (sign !== null) return sign;
  const group = /[.,]/.exec(figures)?.[0];
  return group ? (group === ',' ? '.' : ',') : null;
};

export interface MoneyHabit {
  /** The decimal sign that the owner has said this column has. */
  chosen?: DecimalSign | null;
  /** The one that the column's other amounts show. */
  usual?: DecimalSign | null;
  /**
   * Refuses, with a question, a lone sign before three digits that is otherwise this reader's decimal sign.
   */
  ask?: boolean;
}

const notAnAmount = (shown: string) => notUnderstood(`"${shown}" is not an amount such as 1,250.00`);

/**
 * Minor units of an amount as people write it: `$1,250.00`, `1.250,00 €`, `1 250`, `12.-`, `(3.20)`. What
 * is not wholly understood is no amount, and a currency other than `currency` is refused. A lone point or
 * comma before three digits groups thousands, unless the owner has chosen otherwise for the column; in a
 * currency of three decimals the column decides, and without one it is refused. Negative and zero amounts
 * are left to the caller.
 */
export const readMoney = (cell: Cell, currency: Currency, habit: MoneyHabit = {}): Reading<Minor> => {
  let decimals: number;
  try {
    decimals = currencyDecimals(currency);
  } catch {
    return notUnderstood(unknownCurrency(currency));
  }
  if (isAmountCell(cell)) {
    const named = currencyNamed(cell.sign, currency);
    return named === currency
      ? readMoney(cell.number, currency, habit)
      : otherCurrency(`${shownNumber(cell.number)} ${cell.sign}`, cell.sign, named, currency);
  }
  if (typeof cell === 'number')
    return exact(cell.toFixed(Math.min(decimals + 4, 12)), decimals, String(cell), currency);
  if (cell instanceof Date || typeof cell === 'boolean') return notAnAmount(String(cell));
  const shown = (cell ?? '').trim();
  const text = plainSigns(shown);
  if (/\d ?[-/] ?\d/.test(text)) return notUnderstood(`"${shown}" is more than one amount`);
  const amount = amountIn(text);
  if (!amount) return notAnAmount(shown);
  const named = namedIn(amount.named, currency);
  if (named !== 'none' && named !== currency)
    return otherCurrency(shown, amount.named.replace('\n', ' '), named, currency);
  const { figures } = amount;
  let sign: DecimalSign | null;
  const own = ownSign(figures);
  if (own === 'both') {
    const lone = loneSign(figures) ?? '.';
    if (habit.chosen) sign = habit.chosen;
    else if (decimals >= 3) {
      if (!habit.usual)
        return notUnderstood(
          `"${shown}" can be read two ways in ${currency}; choose the decimal sign for this column`,
        );
      sign = habit.usual;
    } else if (habit.ask && habit.usual === lone)
      return notUnderstood(
        `Is ${figures} meant as ${figures.replace(lone, '')}? Write it without the ${lone === '.' ? 'point' : 'comma'}`,
      );
    else sign = lone === ',' ? '.' : ',';
  } else {
    sign = own;
    if (sign && habit.chosen && sign !== habit.chosen && !(figures.includes(',') && figures.includes('.')))
      return notUnderstood(
        `"${shown}" does not fit the decimal sign "${habit.chosen}" chosen for this column`,
      );
  }
  const at = sign ? figures.lastIndexOf(sign) : -1;
  const whole = at < 0 ? figures : figures.slice(0, at);
  const fraction = at < 0 ? '' : figures.slice(at + 1);
  if (!/^\d*$/.test(fraction) || (!/^\d*$/.test(whole) && (!grouped.test(whole) || groupsOf(whole) > 1)))
    return notAnAmount(shown);
  return exact(
    `${amount.negative ? '-' : ''}${whole.replace(/\D/g, '') || '0'}.${fraction}`,
    decimals,
    shown,
    currency,
  );
};

/** What stands behind a known currency, such as "the pair" of "£ the pair"; '' where nothing does. */
const behindCurrency = (written: string, own: Currency): string => {
  const [first = '', ...rest] = written.split(' ');
  return rest.length > 0 && currencyNamed(first, own) !== null ? rest.join(' ') : '';
};

const otherCurrency = (shown: string, written: string, named: Currency | null, currency: Currency) => {
  const besides = named === null ? behindCurrency(written, currency) : '';
  return notUnderstood(
    named !== null
      ? `"${shown}" is in ${named}, not in ${currency}`
      : looksLikeCurrency(written) && besides === ''
        ? `"${shown}": which currency "${written}" is cannot be told; write its ISO 4217 code, such as USD`
        : `"${shown}" is not an amount such as 1,250.00; "${besides || written}" is not understood`,
  );
};

const exact = (number: string, decimals: number, shown: string, currency: Currency): Reading<Minor> => {
  const match = /^(-?)(\d+)\.?(\d*)$/.exec(number);
  if (!match) return notAnAmount(shown);
  const [, minus, whole = '', fraction = ''] = match;
  if (/[1-9]/.test(fraction.slice(decimals)))
    return notUnderstood(`"${shown}" has more decimals than ${currency} has (${decimals})`);
  const minor = Number(whole + fraction.slice(0, decimals).padEnd(decimals, '0'));
  if (!Number.isSafeInteger(minor)) return notUnderstood(`"${shown}" is too large an amount`);
  return understood(minus && minor ? -minor : minor);
};

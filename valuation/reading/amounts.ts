import { currencyDecimals } from '../money.ts';
import type { Currency, Minor } from '../types.ts';
import { currencyOfAmount, type MoneyHabit, readMoney, signOfAmount } from './money.ts';
import { type Cell, notUnderstood, type Reading, understood } from './reading.ts';

export interface PaidAmount {
  minor: Minor;
  currency: Currency;
  /** True where it is said to be for each of several cars. */
  isEach: boolean;
}

const each = / ?(?:\(?(?:each|ea\.?|apiece|per car|per piece|je|pro st(?:ü|ue)ck|pi(?:è|e)ce|chacune?)\)?)$/i;

/**
 * An amount in whole units of its currency, as a number: 1250 minor units of a currency with cents are 12.5.
 */
export const inUnits = (minor: Minor, currency: Currency): number => minor / 10 ** currencyDecimals(currency);

/** What stands for a currency beside what was paid, '' where nothing does; null for what is no amount. */
export const signOfPaid = (cell: Cell): string | null => {
  if (typeof cell !== 'string') return signOfAmount(cell);
  return /^\d+(?:[.,]\d\d)?$/.test(cell) ? '' : signOfAmount(cell.replace(each, ''));
};

/**
 * What was paid or asked, in the currency that the amount names, or else in `own`. Nothing and less than
 * nothing are not understood.
 */
export const readPaid = (cell: Cell, own: Currency, habit: MoneyHabit): Reading<PaidAmount> => {
  const isEach = typeof cell === 'string' && each.test(cell);
  const amount = typeof cell === 'string' ? cell.replace(each, '') : cell;
  const named = currencyOfAmount(amount, own);
  const currency = named === 'none' || named === null ? own : named;
  const reading = readMoney(amount, currency, habit);
  if (!reading.ok) return reading;
  return reading.value >= 0
    ? understood({ minor: reading.value, currency, isEach })
    : notUnderstood(`"${String(cell)}" is below zero`);
};

const rangeOfAmounts = /^(.*\d[^-–]*?) ?(?:-|–|to|bis) ?(\D{0,3}\d.*)$/i;

/**
 * The currency that an estimate names, a range by either of its ends: 'none' where it names none, null where
 * that is not to be told.
 */
export const currencyOfEstimate = (cell: Cell, own: Currency): Currency | 'none' | null => {
  const range = typeof cell === 'string' ? rangeOfAmounts.exec(cell.trim()) : null;
  if (!range) return currencyOfAmount(cell, own);
  const ends = range.slice(1).map(end => currencyOfAmount(end.trim(), own));
  return ends.find(named => named !== 'none') ?? 'none';
};

const threeAmounts = /^([^-–]*\d[^-–]*) ?[-–] ?([^-–]*\d[^-–]*) ?[-–] ?([^-–]*\d[^-–]*)$/;

/** An estimate: one amount, a range of two, or low, middle and high one after the other; as low, mid and high, in minor units of `own`. */
export const readEstimate = (
  cell: Cell,
  own: Currency,
  habit: MoneyHabit,
): Reading<{ low: Minor; mid: Minor; high: Minor }> => {
  const three = typeof cell === 'string' ? threeAmounts.exec(cell.trim()) : null;
  if (three) {
    const [low, mid, high] = three.slice(1).map(text => readMoney(text.trim(), own, habit));
    if (low?.ok && mid?.ok && high?.ok && low.value > 0 && low.value <= mid.value && mid.value <= high.value)
      return understood({ low: low.value, mid: mid.value, high: high.value });
    return notUnderstood(`"${String(cell)}" is not a low, a middle and a high amount such as 60-75-90`);
  }
  const range = typeof cell === 'string' ? rangeOfAmounts.exec(cell.trim()) : null;
  if (range) {
    const [low, high] = [readMoney(range[1] ?? '', own, habit), readMoney(range[2] ?? '', own, habit)];
    return low.ok && high.ok && low.value > 0 && high.value >= low.value
      ? understood({ low: low.value, mid: Math.round((low.value + high.value) / 2), high: high.value })
      : notUnderstood(`"${String(cell)}" is not a range of amounts such as 60-90`);
  }
  const one = readMoney(cell, own, habit);
  if (!one.ok) return one;
  return one.value > 0
    ? understood({ low: one.value, mid: one.value, high: one.value })
    : notUnderstood(`"${String(cell)}" is not an estimate: enter more than zero`);
};

/** How many cars a row is of. */
export const readQuantity = (cell: Cell): Reading<number> => {
  const text = String(cell ?? '').trim();
  const match = /^(?:x ?)?(\d{1,3})(?:\.0+)? ?(?:x|×|pcs?\.?|cars?|pieces?|st(?:ü|ue)?c?k?\.?)?$/i.exec(text);
  const number = Number(match?.[1]);
  return match && number >= 1 && number <= 500
    ? understood(number)
    : notUnderstood(`"${text}" is not a number of cars`);
};

/**
 * What one of several costs: an equal part of what was paid for all, to the minor unit; the parts add up to
 * the whole.
 */
export const partOf = (minor: Minor, quantity: number, at: number): Minor =>
  Math.floor((minor * (at + 1)) / quantity) - Math.floor((minor * at) / quantity);

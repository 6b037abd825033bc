import { currencyDecimals, isCurrency } from '../money.ts';
import type { Currency, Minor } from '../types.ts';
import { readMoney } from './money.ts';

/** The terms of a bid as a cell of the list of lots has them; shares 0…1. */
export interface BidCell {
  margin: number;
  probability: number;
  premiumRate: number;
  taxRate: number;
  carriage: Minor;
}

/** What each share is called in the cell, in its order. */
const shares = [
  ['margin', 'margin'],
  ['chance', 'probability'],
  ['premium', 'premiumRate'],
  ['tax', 'taxRate'],
] as const satisfies readonly (readonly [string, keyof BidCell])[];

/** In per cent, to a millionth: what is read back is the same share. */
const percentOf = (share: number): number => Math.round(share * 1e8) / 1e6;

/** The terms of a bid in words, such as "margin 20 %; chance 80 %; premium 0 %; tax 0 %; carriage 12.50 USD". */
export const bidCell = (terms: BidCell, currency: Currency): string => {
  const decimals = currencyDecimals(currency);
  return [
    ...shares.map(([word, field]) => `${word} ${percentOf(terms[field])} %`),
    `carriage ${(terms.carriage / 10 ** decimals).toFixed(decimals)} ${currency}`,
  ].join('; ');
};

/**
 * The terms that such a cell tells, with the currency of its carriage; what it leaves out is as in `usual`. Null where
 * a part of it is none.
 */
export const readBidCell = (
  text: string,
  usual: BidCell,
): { terms: BidCell; currency: Currency | null } | null => {
  const terms = { ...usual };
  let currency: Currency | null = null;
  for (const said of text.split(';').filter(part => part.trim() !== '')) {
    const [, word = '', amount = '', unit = ''] =
      /^\s*(\w+)\s+([\d.]+)\s*(%|[A-Za-z]{3})\s*$/.exec(said) ?? [];
    const share = shares.find(([name]) => name === word.toLowerCase());
    const number = Number(amount);
    if (unit === '%' && share && number >= 0 && number <= 100) terms[share[1]] = number / 100;
    else if (word.toLowerCase() === 'carriage' && isCurrency(unit.toUpperCase())) {
      currency = unit.toUpperCase();
      const read = readMoney(amount, currency, { chosen: '.', usual: null });
      if (!read.ok) return null;
      terms.carriage = read.value;
    } else return null;
  }
  return { terms, currency };
};

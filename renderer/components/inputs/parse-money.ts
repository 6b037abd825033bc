import { readMoney } from '../../../valuation/reading/money.ts';
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

/**
 * An amount as someone types it ("1250", "1,250.00", "1.250,00 €", "USD 12.5") in minor units; empty is null.
 * Where a mark could part thousands or decimals, the reader's own habit decides, and what still reads both
 * ways is refused with a sentence.
 */
export const parseMoney = (text: string, currency: Currency, locale: Separators): ParsedMoney => {
  if (text.trim() === '') return { minor: null };
  const usual = locale.decimal === ',' ? ',' : '.';
  const amount = readMoney(text, currency, { usual, ask: true });
  return amount.ok ? { minor: amount.value } : { problem: amount.reason };
};

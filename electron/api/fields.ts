/**
 * The fields that inputs are made of; each yields its own kind of number or text, so that they
 * cannot be mixed up.
 */
import { z } from 'zod';
import { isCurrency, unknownCurrency } from '../../valuation/money.ts';
import type { Currency, IsoDate, Minor } from '../../valuation/types.ts';
import type { Grade } from '../../valuation/words.ts';

type Flavoured<T extends number | string> = z.ZodType<T, T>;

export const id = z.int().positive();
export const isoDate: Flavoured<IsoDate> = z.iso.date();
const ceiling = 9_000_000_000_000_000;
/** An amount of money from this many minor units on. */
export const amountFrom = (least: number, message?: string): Flavoured<Minor> =>
  z.int().min(least, message).max(ceiling);
export const amount = amountFrom(0);
export const currency: Flavoured<Currency> = z
  .string()
  .refine(isCurrency, { error: ({ input }) => unknownCurrency(String(input)) });
export const grade: Flavoured<Grade> = z.number().min(1).max(10).multipleOf(0.5, 'grades go in half points');
/** A BCP 47 tag. */
export const locale = z
  .string()
  .max(100)
  .refine(tag => {
    try {
      return Intl.getCanonicalLocales(tag).length === 1;
    } catch {
      return false;
    }
  }, 'a locale is a tag such as en-GB');
export const line = z.string().trim().max(200);
export const text = z.string().max(20_000);
export const share = z.number().min(0).max(1);
export const threePoint = z
  .object({ low: z.number().min(0), likely: z.number().min(0), high: z.number().min(0) })
  .refine(p => p.low <= p.likely && p.likely <= p.high, 'low, likely and high must rise');
export const threePointAmount = z
  .object({ low: amount, likely: amount, high: amount })
  .refine(p => p.low <= p.likely && p.likely <= p.high, 'low, likely and high must rise');
export const range = z
  .object({ low: amountFrom(1, 'enter more than zero'), mid: amount, high: amount })
  .refine(r => r.low <= r.mid && r.mid <= r.high, 'low, mid and high must rise');

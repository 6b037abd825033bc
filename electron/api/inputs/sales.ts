import { z } from 'zod';
import { saleLineFields } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { finishStates, partNames, saleShows } from '../../../valuation/words.ts';
import { amountFrom, currency, grade, id, isoDate, line, text } from '../fields.ts';
import { listOrder, rowRange, windowRange } from './windows.ts';
import { ownWord } from './words.ts';

const sale = z.object({
  soldOn: isoDate,
  price: amountFrom(1, 'enter a price of more than zero'),
  currency,
  castingId: id,
  variationId: id.nullable(),
  grade: grade.nullable(),
  finishState: z.enum(finishStates),
  missingParts: z.array(z.enum(partNames)),
  reproductionParts: z.array(z.enum(partNames)),
  source: line,
  reference: line,
  reliabilityPercent: z.int().min(0).max(100).nullable(),
  notes: text,
});
export const saleRecord = sale.extend({
  variationId: sale.shape.variationId.default(null),
  grade: sale.shape.grade.default(null),
  finishState: sale.shape.finishState.default('original'),
  missingParts: sale.shape.missingParts.default([]),
  reproductionParts: sale.shape.reproductionParts.default([]),
  source: sale.shape.source.default(''),
  reference: sale.shape.reference.default(''),
  reliabilityPercent: sale.shape.reliabilityPercent.default(null),
  notes: sale.shape.notes.default(''),
});
export const salePatch = sale.partial();
export const updateSale = salePatch.extend({ id });

/** One action in history, however many records: a cell, a fill down, a paste. */
export const updateSales = z.object({
  changes: z
    .array(z.object({ id, patch: salePatch }))
    .min(1)
    .max(100_000),
});
export const excludeSales = z.object({
  ids: z.array(id).min(1),
  excluded: z.boolean(),
  why: line.default(''),
});
export const saleListFilter = z.object({
  castingId: id.nullable(),
  variationId: id.nullable(),
  source: line,
  finish: z.enum(finishStates).nullable(),
  show: z.enum(saleShows),
});
const saleList = z.object({ filter: saleListFilter, order: listOrder });
export const saleWindow = saleList.extend(windowRange.shape);
export type SaleWindow = z.input<typeof saleWindow>;
export const saleRange = saleList.extend(rowRange.shape);
export const salePlace = saleList.extend({ id });
export const listSales = z.object({ castingId: id.optional(), variationId: id.optional() });

/** A text of sales, one a line, and how it is meant. */
export const readSaleLines = z.object({
  text: z.string().max(5_000_000),
  dates: z.enum(['dmy', 'mdy']).optional(),
  currency: currency.optional(),
  words: z.array(ownWord).max(10_000).default([]),
  /** Only these lines, by their numbers; without them, all. */
  lines: z.array(id).max(100_000).optional(),
  /** What the owner says of single lines, against what their texts say. */
  corrections: z
    .array(
      z.object({
        line: id,
        /** By field, in the form in which it is read; an empty text says that it is not known. */
        fields: z.partialRecord(z.enum(saleLineFields), line).default({}),
        castingId: id.optional(),
        /** One car's sale, although the words look otherwise. */
        oneCar: z.boolean().optional(),
      }),
    )
    .max(100_000)
    .default([]),
});
export type SalePatch = z.input<typeof salePatch>;

import { z } from 'zod';
import { lotCostKinds } from '../../../valuation/words.ts';
import { amount, currency, id, isoDate, line, share, text } from '../fields.ts';

const cost = z.object({
  kind: z.enum(lotCostKinds),
  minor: amount,
  note: line.default(''),
});
// A default inside `partial()` would still fill in what a change leaves out, so defaults are added apart.
const lot = z.object({
  name: line.min(1, 'a lot needs a name'),
  boughtOn: isoDate.nullable(),
  seller: line,
  currency,
  costs: z.array(cost),
  notes: text,
});
export const createLot = lot.extend({
  boughtOn: lot.shape.boughtOn.default(null),
  seller: lot.shape.seller.default(''),
  costs: lot.shape.costs.default([]),
  notes: lot.shape.notes.default(''),
});
export const updateLot = lot.partial().extend({ id });

/** What was paid for a lot, or for a car bought alone, is left out of estimates, or taken in again. */
export const leaveOutPurchase = z.object({
  of: z.enum(['lot', 'car']),
  id,
  leftOut: z.boolean(),
  why: line.default(''),
});
/** Cars with a share fixed by hand; the rest of the lot's cost is shared by relative worth. */
export const shareLotCost = z.object({
  id,
  fixed: z.array(z.object({ carId: id, minor: amount.nullable() })).default([]),
});
export const bid = z.object({
  carIds: z.array(id).optional(),
  lotId: id.optional(),
  margin: share.default(0.2),
  probability: share.default(0.8),
  premiumRate: share.default(0),
  taxRate: share.default(0),
  carriage: amount.default(0),
});

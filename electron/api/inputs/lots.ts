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
  /** Only seen: it has neither a day nor costs, and its cars are not the owner's until it is bought. */
  seen: z.boolean(),
});
export const createLot = lot.extend({
  boughtOn: lot.shape.boughtOn.default(null),
  seller: lot.shape.seller.default(''),
  costs: lot.shape.costs.default([]),
  notes: lot.shape.notes.default(''),
  seen: lot.shape.seen.default(false),
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
const bidTerms = z.object({
  margin: share,
  probability: share,
  premiumRate: share,
  taxRate: share,
  carriage: amount,
});
/** What is left out is as it was saved with the lot, else as bids usually begin. */
export const wishedTerms = bidTerms.partial();
export const bid = wishedTerms.extend({ carIds: z.array(id).optional(), lotId: id.optional() });
export const saveBid = bidTerms.extend({ id });
/** What a lot that was seen was bought for, in its own currency; premium and tax are shares of the price. */
export const buyLot = z.object({
  id,
  boughtOn: isoDate,
  price: amount,
  premiumRate: share.default(0),
  taxRate: share.default(0),
  carriage: amount.default(0),
});

import { z } from 'zod';
import {
  deviationKinds,
  finishStates,
  options,
  originalities,
  partNames,
  planKinds,
  planLineKinds,
  rarities,
  whichWorths,
  workKinds,
} from '../../../valuation/words.ts';
import { amount, currency, grade, id, line, share, text, threePoint, threePointAmount } from '../fields.ts';

export const explainWorth = z.object({ carId: id, which: z.enum(whichWorths) });
export const saveAssumptions = z.object({ body: z.unknown(), note: line.default('') });
export const savePlan = z.object({
  carId: id,
  kind: z.enum(planKinds).default('restore'),
  targetGrade: grade,
  deviations: z.array(z.enum(deviationKinds)).default([]),
  partsAfter: z
    .array(z.object({ part: z.enum(partNames), grade: grade.nullable(), originality: z.enum(originalities) }))
    .default([]),
  hours: threePoint,
  spoilChance: share.default(0),
  spoiledShare: share.default(0.5),
  lines: z
    .array(
      z.object({
        name: line.min(1),
        kind: z.enum(planLineKinds),
        cost: threePointAmount,
        part: line.optional(),
        quantity: z.int().min(1).default(1),
      }),
    )
    .default([]),
  notes: text.default(''),
});
export const valueOfAnHour = z.object({ rate: amount });
export const savePart = z.object({
  id: id.optional(),
  name: line.min(1),
  inStock: z.int().min(0),
  unit: amount.nullable().default(null),
  currency: currency.nullable().default(null),
  // What is not said of a part that is there stays as it is.
  part: z.enum(['', ...partNames]).optional(),
  originality: z.enum(['', 'original', 'period replacement', 'reproduction']).optional(),
  grade: grade.nullable().optional(),
  castingId: id.nullable().optional(),
  donorCarId: id.nullable().optional(),
});
export const recordDecision = z.object({
  carId: id,
  choice: z.enum(options),
  overruled: z.array(z.string().max(40)).default([]),
  reason: text.default(''),
});
export const recordDecisions = z.object({ decisions: z.array(recordDecision).min(1).max(2000) });
export const listDecisions = z.object({
  lotId: id.optional(),
  finishStates: z.array(z.enum(finishStates)).optional(),
  belowGrade: grade.optional(),
  excludeRarities: z.array(z.enum(rarities)).optional(),
});
/**
 * What there is for a season, and among which cars to choose; `by`: what is to be done with cars that must be
 * in.
 */
export const chooseSeason = z.object({
  carIds: z.array(id).max(100_000),
  hours: z.number().min(0).nullable().default(null),
  cash: amount.nullable().default(null),
  parts: z.record(line, z.int().min(0)).default({}),
  cars: z.int().min(0).nullable().default(null),
  perCasting: z.int().min(1).nullable().default(null),
  must: z.array(id).default([]),
  by: z.array(z.object({ carId: id, option: z.enum(workKinds) })).default([]),
  mustNot: z.array(id).default([]),
});
export const seasonRange = z.object({
  cars: z.array(z.object({ carId: id, option: z.enum(workKinds) })).max(10_000),
});

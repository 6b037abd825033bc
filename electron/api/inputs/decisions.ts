import { z } from 'zod';
import {
  decidedWords,
  deviationKinds,
  finishStates,
  options,
  originalities,
  partNames,
  planKinds,
  planLineKinds,
  rarities,
  recommendations,
  whichWorths,
  workKinds,
} from '../../../valuation/words.ts';
import { amount, currency, grade, id, line, share, text, threePoint, threePointAmount } from '../fields.ts';
import { listOrder, rowRange, windowRange } from './windows.ts';

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
/** Which of the cars that may be worked on; empty lists and null mean any. */
export const decideFilter = z.object({
  lot: id.nullable(),
  finish: z.array(z.enum(finishStates)),
  below: grade.nullable(),
  not: z.array(z.enum(rarities)),
  recommendation: z.array(z.enum(recommendations)),
  decided: z.enum(decidedWords).nullable(),
});
const decideList = z.object({ filter: decideFilter, order: listOrder });
export const decideWindow = decideList.extend(windowRange.shape);
export const decidePlace = decideList.extend({ id });
export const decideRange = decideList.extend(rowRange.shape);
export const weighedCars = z.object({ ids: z.array(id).max(2000) });
/** The points of the chart; those of `also`, where they are shown, stand each by itself. */
export const decidePoints = z.object({ filter: decideFilter, also: z.array(id).max(10_000) });
/** The cars that are not in a season, of those that the filter shows. */
export const leftOut = z.object({
  filter: decideFilter,
  taken: z.array(id).max(10_000),
  never: z.array(id).max(10_000),
});
/**
 * What there is for a season, and among which cars to choose; `by`: what is to be done with cars that must be
 * in.
 */
export const chooseSeason = z.object({
  /** Among these, or among those that the filter shows. */
  carIds: z.array(id).max(100_000).default([]),
  filter: decideFilter.nullable().default(null),
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

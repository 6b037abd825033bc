import { z } from 'zod';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import type { AssumptionSet, StandardPlanDefaults } from '../../../valuation/types.ts';
import {
  deviationKinds,
  finishStates,
  indexNames,
  partNames,
  planLineKinds,
  rarities,
} from '../../../valuation/words.ts';

const startingLosses = defaultAssumptions('USD').partLoss;
const share = z.number().min(0).max(1);
const factor = z.number().positive().max(1000);
const spread = z.number().min(0).max(5);
const amount = z.int().min(0);
const grade = z.number().min(1).max(10).multipleOf(0.5, 'grades go in half points');
const name = z.string().trim().min(1).max(200);
const threePoint = z
  .object({ low: z.number().min(0), likely: z.number().min(0), high: z.number().min(0) })
  .refine(point => point.low <= point.likely && point.likely <= point.high, 'low, likely and high must rise');

/**
 * Multipliers at C1 … C10: a better grade is never worth less, and C10 is what the others are relative to.
 */
const multipliers = z
  .array(factor)
  .length(10, 'there is one multiplier for each of C1 to C10')
  .refine(
    list => list.every((value, i) => i === 0 || value >= (list[i - 1] ?? 0)),
    'multipliers must rise with the grade',
  )
  .refine(list => list[9] === 1, 'the multiplier at C10 is 1: the others are relative to it');

const plan = z.object({
  targetGrade: grade,
  hours: threePoint,
  lines: z.array(
    z.object({
      name,
      kind: z.enum(planLineKinds),
      cost: threePoint,
      part: name.optional(),
      quantity: z.int().min(1).optional(),
    }),
  ),
  deviations: z.array(z.enum(deviationKinds)),
  spoilChance: share,
  spoiledShare: share,
});

const standardPlan: z.ZodType<StandardPlanDefaults> = z.object({
  restore: plan,
  customise: plan,
  replacedPart: threePoint,
  conserve: z.object({ hours: threePoint, cost: threePoint }),
  donor: z.object({ hours: threePoint, cost: threePoint }),
});

const work: z.ZodType<Omit<AssumptionSet['work'], 'steps'>> = z.object({
  plansFrom: z.enum(['car', 'standard']),
  workmanship: z
    .array(z.object({ short: z.number().min(0).max(9).multipleOf(0.5), share }))
    .min(1)
    .refine(
      list => Math.abs(list.reduce((sum, one) => sum + one.share, 0) - 1) < 1e-6,
      'the shares must add up to 100 %',
    ),
});

/**
 * An assumption set as it is saved: its steps are kept on their own, and sets of before plans were made from
 * cars say nothing of them.
 */
export type SavedAssumptions = Omit<AssumptionSet, 'work'> & { work?: Omit<AssumptionSet['work'], 'steps'> };

/** A whole assumption set as the owner may save it; what is outside sense is refused with its place. */
export const assumptionsSchema: z.ZodType<SavedAssumptions> = z.object({
  label: z.string().max(500),
  gradeMultipliers: z.record(z.enum(finishStates), multipliers),
  finishFactors: z.record(z.enum(finishStates), factor),
  // Sets from before a part could be named take it from the starting points.
  partLoss: z.preprocess(
    saved => (saved !== null && typeof saved === 'object' ? { ...startingLosses, ...saved } : saved),
    z.record(z.enum(partNames), z.object({ missing: share, reproduction: share, periodReplacement: share })),
  ),
  packagingGain: z.number().min(0).max(10).optional(),
  deviationLoss: z.record(z.enum(deviationKinds), share),
  rarityFactors: z.record(z.enum(rarities), factor),
  sourceReliability: z.record(z.string().max(40), share),
  beliefSales: z.number().min(0).max(100).optional(),
  unknownGrade: grade,
  halfLifeYears: z.number().positive().max(1000),
  gradeDistanceHalf: z.number().positive().max(100),
  index: z.union([
    z.enum(indexNames),
    z.object({ series: z.record(z.string().regex(/^\d{4}$/), z.number().positive()) }),
  ]),
  widestEstimate: z.number().min(1).max(1e6).optional(),
  prior: z.object({
    within: spread,
    betweenVariations: spread,
    betweenCastings: spread,
    betweenSeries: spread,
    strength: z.number().min(0).max(10_000),
    gradeStep: spread,
    finish: spread,
    rarity: spread,
    trend: spread,
  }),
  decision: z.object({
    leastGain: amount,
    leastProbability: share,
    keepGrade: grade,
    keepRarities: z.array(z.enum(rarities)),
    sellingFees: share,
    worthCorrelation: share,
    conserveGain: z.number().min(0).max(9).multipleOf(0.5),
    donorShare: share,
  }),
  hourlyRate: amount,
  work: work.optional(),
  standardPlan,
});

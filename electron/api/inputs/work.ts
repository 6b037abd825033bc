import { z } from 'zod';
import {
  closures,
  deviationKinds,
  hazards,
  jobStepStates,
  partNames,
  seasonStandings,
  workKinds,
} from '../../../valuation/words.ts';
import { amount, currency, grade, id, isoDate, line, text } from '../fields.ts';

export const planFromCar = z.object({
  carId: id,
  kind: z.enum(workKinds).default('restore'),
  wishes: z
    .object({
      aim: grade.optional(),
      closure: z.enum(closures).optional(),
      without: z.array(line).max(200).optional(),
      leaveOff: z.array(z.enum(partNames)).optional(),
      departures: z.array(z.enum(deviationKinds)).optional(),
    })
    .default({}),
});

const points = z
  .object({ low: z.number().min(0), likely: z.number().min(0), high: z.number().min(0) })
  .refine(point => point.low <= point.likely && point.likely <= point.high, 'low, likely and high must rise');

/** One step as the owner may save it; only what the program knows how to answer can call for one. */
const workStep = z.object({
  id: z.string().regex(/^[a-z]+(?:-[a-z]+)*$/, 'a step’s key is lower-case words joined by hyphens'),
  name: line.min(1),
  kinds: z.array(z.enum(workKinds)).min(1),
  part: z.enum(partNames).nullable(),
  call: z.object({
    below: grade.optional(),
    from: grade.optional(),
    originality: z.array(z.enum(['original', 'period replacement', 'reproduction', 'missing'])).optional(),
    finishStates: z
      .array(z.enum(['original', 'touched up', 'restored', 'customised', 'stripped']))
      .optional(),
    bodyFinish: z.array(z.enum(['lacquer', 'enamel', 'plate', 'bare', 'unknown'])).optional(),
    closures: z.array(z.enum(closures)).optional(),
    captiveBearings: z.boolean().optional(),
    specified: z.enum(['base painted', 'roof apart', 'tail apart']).optional(),
    replace: z.literal(true).optional(),
  }),
  after: z.array(line).max(100),
  hands: points,
  waiting: points,
  materials: z
    .array(z.object({ name: line.min(1), kind: z.enum(['material', 'tool']), cost: points }))
    .max(20),
  hazards: z.array(z.enum(hazards)),
  spoilChance: z.number().min(0).max(1),
  spoiledShare: z.number().min(0).max(1),
  grade: z.object({ gain: z.number().min(0).max(9).multipleOf(0.5), upTo: grade }).nullable(),
  brings: z.array(z.enum(deviationKinds)),
});
export const workSteps = z
  .array(workStep)
  .max(500)
  .refine(
    steps => new Set(steps.map(step => step.id)).size === steps.length,
    'every step has a key of its own',
  );
export const saveSteps = z.object({ steps: workSteps, note: line.default('') });

/** A season as it is chosen: its limits, its cars in their order, and what was expected of each then. */
export const saveSeason = z.object({
  id: id.nullable().default(null),
  name: line.min(1),
  current: z.boolean().default(true),
  hours: z.number().min(0).max(100_000).nullable().default(null),
  cash: amount.nullable().default(null),
  currency,
  perCasting: z.int().min(1).nullable().default(null),
  parts: z.record(line, z.int().min(0).nullable()).default({}),
  expected: z.int().nullable().default(null),
  notes: text.default(''),
  cars: z
    .array(
      z.object({
        carId: id,
        kind: z.enum(workKinds).default('restore'),
        standing: z.enum(seasonStandings).default('in'),
        expected: z.int().nullable().default(null),
        cost: amount.nullable().default(null),
        hours: z.number().min(0).nullable().default(null),
        found: amount.nullable().default(null),
        after: amount.nullable().default(null),
      }),
    )
    .max(10_000),
  excluded: z.array(id).max(10_000).default([]),
});
export const setCurrentSeason = z.object({ id: id.nullable() });
export const closeSeason = z.object({ id, on: isoDate });

export const addJobs = z.object({
  seasonId: id.nullable().default(null),
  cars: z
    .array(z.object({ carId: id, kind: z.enum(workKinds).default('restore') }))
    .min(1)
    .max(1000),
});
export const setJobStep = z.object({
  stepId: id,
  state: z.enum(jobStepStates),
  note: text.optional(),
  spoiled: z.boolean().optional(),
});
export const jobSteps = z.object({ stepIds: z.array(id).min(1).max(200) });
export const useMaterial = z.object({
  jobId: id,
  stepId: id.nullable().default(null),
  name: line.min(1),
  minor: amount,
  currency,
});
export const usePart = z.object({
  jobId: id,
  stepId: id.nullable().default(null),
  name: line.min(1),
  part: z.enum(['', ...partNames]).default(''),
  originality: z.enum(['original', 'period replacement', 'reproduction']),
  shelfId: id.nullable().default(null),
  donorCarId: id.nullable().default(null),
  quantity: z.int().min(1).max(1000).default(1),
  minor: amount.default(0),
  currency,
});
export const changeJob = z.object({
  id,
  state: z.enum(['open', 'paused', 'given up']),
  reason: line.default(''),
});

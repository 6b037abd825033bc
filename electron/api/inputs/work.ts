import { z } from 'zod';
import {
  closures,
  deviationKinds,
  finishKinds,
  finishStates,
  hazards,
  jobStepStates,
  originalities,
  partNames,
  photoMoments,
  seasonStandings,
  workKinds,
} from '../../../valuation/words.ts';
import { amount, currency, grade, id, isoDate, line, text, threePoint, threePointAmount } from '../fields.ts';
import { addPhotos } from './photos.ts';

const fittedOriginalities = originalities.filter(one => one !== 'missing');

const lineChange = z.object({
  name: line.min(1).optional(),
  hands: threePoint.optional(),
  waiting: threePoint.optional(),
  cost: threePointAmount.optional(),
});
const ownLine = z.object({
  id: line.min(1),
  name: line.min(1),
  part: z.enum(partNames).nullable().default(null),
  hands: threePoint,
  waiting: threePoint.default({ low: 0, likely: 0, high: 0 }),
  cost: threePointAmount.default({ low: 0, likely: 0, high: 0 }),
  hazards: z.array(z.enum(hazards)).default([]),
  behind: line.nullable().default(null),
});
const partChoice = z.discriminatedUnion('from', [
  z.object({ from: z.literal('shelf'), name: line.min(1) }),
  z.object({
    from: z.literal('buy'),
    originality: z.enum(fittedOriginalities),
    cost: threePointAmount,
  }),
]);
/** What an owner asks of a plan that is made from the car. */
const wishes = z.object({
  aim: grade.optional(),
  closure: z.enum(closures).optional(),
  without: z.array(line).max(500).optional(),
  also: z.array(line).max(500).optional(),
  changed: z.record(line, lineChange).optional(),
  added: z.array(ownLine).max(200).optional(),
  fit: z.partialRecord(z.enum(partNames), partChoice).optional(),
  leaveOff: z.array(z.enum(partNames)).optional(),
  departures: z.array(z.enum(deviationKinds)).optional(),
  colour: line.optional(),
});
export const planFromCar = z.object({
  carId: id,
  kind: z.enum(workKinds).default('restore'),
  wishes: wishes.default({}),
});
/** Without wishes, the car's saved plan, or the one made from it. */
export const carPlan = z.object({
  carId: id,
  kind: z.enum(workKinds).optional(),
  wishes: wishes.optional(),
});
export const saveWorkPlan = z.object({
  carId: id,
  kind: z.enum(workKinds),
  wishes,
  notes: text.default(''),
});
export const removeWorkPlan = z.object({ carId: id, kind: z.enum(workKinds) });
export const saveTemplate = z.object({
  name: line.min(1),
  kind: z.enum(workKinds),
  wishes,
  fromCarId: id.nullable().default(null),
});

/** One step as the owner may save it; only what the program knows how to answer can call for one. */
const workStep = z.object({
  id: z.string().regex(/^[a-z]+(?:-[a-z]+)*$/, 'a step’s key is lower-case words joined by hyphens'),
  name: line.min(1),
  kinds: z.array(z.enum(workKinds)).min(1),
  part: z.enum(partNames).nullable(),
  call: z.object({
    below: grade.optional(),
    from: grade.optional(),
    originality: z.array(z.enum(originalities)).optional(),
    finishStates: z.array(z.enum(finishStates)).optional(),
    bodyFinish: z.array(z.enum(finishKinds)).optional(),
    closures: z.array(z.enum(closures)).optional(),
    captiveBearings: z.boolean().optional(),
    specified: z.enum(['base painted', 'roof apart', 'tail apart']).optional(),
    replace: z.literal(true).optional(),
    graded: z.literal(true).optional(),
    asked: z.literal(true).optional(),
  }),
  after: z.array(line).max(100),
  hands: threePoint,
  waiting: threePoint,
  materials: z
    .array(z.object({ name: line.min(1), kind: z.enum(['material', 'tool']), cost: threePoint }))
    .max(20),
  hazards: z.array(z.enum(hazards)),
  spoilChance: z.number().min(0).max(1),
  spoiledShare: z.number().min(0).max(1),
  grade: z.object({ gain: z.number().min(0).max(9).multipleOf(0.5), upTo: grade }).nullable(),
  leaves: z.enum(fittedOriginalities).nullable().default(null),
  takes: z.array(z.enum(partNames)).default([]),
  buys: z
    .object({ originality: z.enum(fittedOriginalities), cost: threePoint })
    .nullable()
    .default(null),
  insteadOf: z.array(line).max(100).default([]),
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
  mostCars: z.int().min(1).nullable().default(null),
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
        colour: line.default(''),
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
  /** The same step of other cars, done at once with it. */
  also: z.array(id).max(200).default([]),
  state: z.enum(jobStepStates),
  note: text.optional(),
  spoiled: z.boolean().optional(),
});
export const jobSteps = z.object({ stepIds: z.array(id).min(1).max(200) });
export const addMaterial = z.object({
  jobId: id,
  stepId: id.nullable().default(null),
  name: line.min(1),
  minor: amount,
  currency,
});
export const addPart = z.object({
  jobId: id,
  stepId: id.nullable().default(null),
  name: line.min(1),
  part: z.enum(['', ...partNames]).default(''),
  originality: z.enum(fittedOriginalities),
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
export const orderJobs = z.object({ ids: z.array(id).min(1).max(10_000) });
export const noteJob = z.object({ id, notes: text.optional(), who: line.optional() });
export const lookAt = z.object({ jobId: id, key: line.min(1), seen: z.boolean() });
export const enterTime = z.object({
  stepId: id,
  /** Steps of other cars that share the time. */
  also: z.array(id).max(200).default([]),
  minutes: z.int().min(1).max(1440),
});
export const removeUse = z.object({ jobId: id, useId: id, is: z.enum(['material', 'part']) });
export const addJobPhotos = z.object({
  jobId: id,
  stepId: id.nullable().default(null),
  moment: z.enum(photoMoments).default('during'),
  files: addPhotos.shape.files,
});

/**
 * Cars that will be painted anyway, what two cars of one colour count against the shelf, and whether colours
 * that their castings never had may be proposed.
 */
export const seasonColours = z.object({
  carIds: z.array(id).max(500),
  pairCost: amount,
  others: z.boolean().default(false),
});

export const acceptLearned = z.object({
  stepIds: z.array(line).max(500).default([]),
  workmanship: z.boolean().default(false),
});

import { z } from 'zod';
import {
  carLacks,
  carStatuses,
  closures,
  deviationKinds,
  fidelityGrades,
  finishStates,
  listedStatuses,
  originalities,
  partNames,
  rarities,
  recommendations,
  workKinds,
} from '../../../valuation/words.ts';
import { amount, currency, grade, id, isoDate, line, range, text } from '../fields.ts';
import { listOrder, rowRange, windowRange } from './windows.ts';

export const carPatch = z.object({
  inventoryNumber: line.min(1).optional(),
  lotId: id.nullable().optional(),
  castingId: id.nullable().optional(),
  variationId: id.nullable().optional(),
  candidates: z.array(id).max(500).optional(),
  /** Text as typed, by our import columns; matched against the reference where it can be. */
  asWritten: z.record(line.max(40), line).optional(),
  grade: grade.nullable().optional(),
  finishState: z.enum(finishStates).optional(),
  status: z.enum(carStatuses).optional(),
  location: line.optional(),
  /** Its own, where it was bought by itself. */
  boughtOn: isoDate.nullable().optional(),
  seller: line.optional(),
  notes: text.optional(),
  wornColour: line.optional(),
  wornFinish: line.optional(),
  restorerMark: line.optional(),
  ownWorth: range.nullable().optional(),
});
export const createCars = z.object({ lotId: id.nullable(), cars: z.array(carPatch).min(1).max(1000) });

/** One action in history, however many cars: a cell, a fill down, a paste. */
export const updateCars = z.object({
  changes: z
    .array(z.object({ id, patch: carPatch }))
    .min(1)
    .max(100_000),
  label: line.optional(),
});
export const listCars = z.object({
  lotId: id.optional(),
  castingId: id.optional(),
  variationId: id.optional(),
  includeSold: z.boolean().default(true),
});
/** Which cars the list of all shows; empty lists and null mean any. */
export const carListFilter = z.object({
  lots: z.array(z.int()),
  series: z.array(z.string()),
  casting: id.nullable(),
  variation: id.nullable(),
  finish: z.array(z.enum(finishStates)),
  /** Bands such as "7-8.5", or "none" for cars without a grade. */
  grade: z.array(z.string().regex(/^(none|\d+(\.5)?-\d+(\.5)?)$/)),
  status: z.array(z.enum(listedStatuses)),
  recommendation: z.array(z.enum(recommendations)),
  rarity: z.array(z.enum(rarities)),
  show: z.enum(carLacks).nullable(),
  text: z.string().max(2000),
});
const carList = z.object({
  filter: carListFilter,
  order: listOrder,
  /** As the wall hangs them: equal ones by their numbers. */
  wall: z.boolean(),
});
export const carWindow = carList.extend(windowRange.shape);
/** Cars that are chosen of a list: those of a range of it, or those of these ids that it shows. */
export const chooseCars = carList.extend({ of: z.union([rowRange, z.object({ ids: z.array(id) })]) });
export const saveCheck = z.object({
  carId: id,
  checkId: id.nullable().default(null),
  checkedOn: isoDate,
  grade: grade.nullable(),
  notes: text.default(''),
  parts: z.array(
    z.object({
      part: z.enum(partNames),
      grade: grade.nullable(),
      originality: z.enum(originalities),
      note: line.default(''),
    }),
  ),
});
export const dispose = z.object({
  carId: id,
  soldOn: isoDate,
  proceeds: amount,
  fees: amount.default(0),
  currency,
  buyer: line.default(''),
  venue: line.default(''),
  notes: text.default(''),
});
export const expense = z.object({ carId: id, spentOn: isoDate, what: line.min(1), minor: amount, currency });

/** Something that happened to a car, with its grade afterwards; null where it was not graded again. */
export const recordEvent = z.object({
  carId: id,
  happenedOn: isoDate,
  cause: line.min(1),
  note: text.default(''),
  grade: grade.nullable().default(null),
});

/**
 * What was done to a car, as one action: a check by part, its finish, what it wears, departures,
 * and what it cost.
 */
export const finishWork = z.object({
  carId: id,
  jobId: id.nullable().default(null),
  kind: z.enum(workKinds),
  finishedOn: isoDate,
  finishState: z.enum(finishStates),
  grade: grade.nullable(),
  parts: saveCheck.shape.parts,
  colour: line.default(''),
  bodyFinish: line.default(''),
  basePaint: line.default(''),
  roof: line.default(''),
  closure: z.enum(['', ...closures, 'not opened']).default(''),
  bearings: line.default(''),
  axles: line.default(''),
  fidelity: z.enum(fidelityGrades).nullable().default(null),
  departures: z.array(z.enum(deviationKinds)).default([]),
  leftAsWas: text.default(''),
  minutes: z.int().min(0).max(1_000_000).nullable().default(null),
  materials: text.default(''),
  partsUsed: text.default(''),
  who: line.default(''),
  mark: line.default(''),
  notes: text.default(''),
  /** What was spent on it, each as an expense of the car. */
  costs: z
    .array(z.object({ what: line.min(1), minor: amount, currency }))
    .max(200)
    .default([]),
});

/** What a cell, a fill or a paste changes of a car or of a sale record, as a screen sends it. */
export type CarPatch = z.input<typeof carPatch>;

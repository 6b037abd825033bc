import { z } from 'zod';
import { basePaints, partNames, rarities, variationFeatures } from '../../../valuation/words.ts';
import { id, line, text } from '../fields.ts';

const features = z.partialRecord(z.enum(variationFeatures), line);
export const suggest = z.object({
  text: z.string().max(200),
  castingId: id.optional(),
  limit: z.int().min(1).max(50).default(12),
});
export const identify = z.object({ castingId: id, features });
export const saveCasting = z.object({
  id: id.optional(),
  maker: line.min(1),
  series: line.min(1),
  name: line.min(1),
  bodyType: line.default('saloon'),
  firstYear: z.int().min(1900).max(2100).nullable().default(null),
  lengthMm: z.number().positive().nullable().default(null),
  materials: text.default(''),
  markings: text.default(''),
  notes: text.default(''),
  /** What is left out of these stays as it is. */
  assembly: line.optional(),
  bearings: z.enum(['', 'open', 'captive']).optional(),
  parts: z
    .array(z.object({ part: z.enum(partNames), detail: line.default(''), lookAt: line.default('') }))
    .optional(),
  /** Values that a feature can take, whether or not a variation has them. */
  featureValues: z
    .array(z.object({ feature: z.enum(variationFeatures), values: z.array(line.min(1)) }))
    .optional(),
});
export const saveRelease = z.object({
  id,
  name: line.min(1),
  year: z.int().min(1900).max(2100).nullable(),
  changedPart: line.default(''),
  notes: text.default(''),
});
/** A series with its maker. */
export const saveSeries = z.object({
  id,
  name: line.min(1),
  firstYear: z.int().min(1900).max(2100).nullable(),
  lastYear: z.int().min(1900).max(2100).nullable(),
  notes: text.default(''),
  maker: line.min(1),
  country: line.default(''),
  makerNotes: text.default(''),
});
export const saveVariation = z.object({
  id: id.optional(),
  castingId: id,
  releaseName: line.min(1),
  releaseYear: z.int().min(1900).max(2100).nullable().default(null),
  features: features.refine(
    f => !f.basePaint || (basePaints as readonly string[]).includes(f.basePaint),
    'base paint is none, front quarter, rear quarter or full',
  ),
  rarity: z.enum(rarities).nullable().default(null),
  factorySpecification: text.default(''),
  /** What is left out of these stays as it is. */
  notes: text.optional(),
  baseWords: line.optional(),
  wheelSizes: line.optional(),
});
export const saveColour = z.object({ name: line.min(1), swatch: z.string().regex(/^#[0-9a-f]{6}$/) });

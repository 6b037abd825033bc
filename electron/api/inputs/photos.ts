import { z } from 'zod';
import { id, isoDate, line } from '../fields.ts';

export const addPhotos = z.object({
  carId: id.optional(),
  lotId: id.optional(),
  variationId: id.optional(),
  files: z.array(z.file().max(100_000_000, 'a photograph may have 100 MB at most')).min(1).max(200),
  view: line.default(''),
  caption: line.default(''),
  state: line.default(''),
});
export const updatePhoto = z.object({
  id,
  view: line.optional(),
  caption: line.optional(),
  state: line.optional(),
  takenOn: isoDate.nullable().optional(),
  position: z.int().optional(),
});

/** All photographs of one car, lot or variation, in the order in which they are to stand. */
export const reorderPhotos = z.object({ ids: z.array(id).min(1).max(1000) });
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
export const proposeDealing = z.object({ lotId: id, files: addPhotos.shape.files });
export const dealOut = z.object({
  lotId: id,
  photos: z
    .array(z.object({ sha256, carId: id }))
    .min(1)
    .max(200),
});
export const readPhoto = z.object({
  sha256,
  size: z.enum(['thumbnail', 'screen', 'large', 'original']),
});

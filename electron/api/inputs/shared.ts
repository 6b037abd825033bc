import { z } from 'zod';
import { id, isoDate } from '../fields.ts';

export const byId = z.object({ id });
export const byIds = z.object({ ids: z.array(id).min(1).max(100_000) });
export const onDate = z.object({ on: isoDate.optional() });

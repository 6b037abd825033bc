import { z } from 'zod';
import { line, locale } from '../fields.ts';

/** So many rows are answered at once. */
const mostRows = 2000;

export const listOrder = z.object({
  sort: z.object({ columnId: line, descending: z.boolean() }).nullable(),
  since: line,
  locale,
});
/** Rows of a list by their places. */
export const rowRange = z.object({ from: z.int().min(0), count: z.int().min(1).max(1_000_000) });
export const windowRange = rowRange.extend({ count: z.int().min(1).max(mostRows) });

import { z } from 'zod';
import { id, line } from '../fields.ts';

/** What a text means: in a column (`*` is any), for a field; `nothing` is a field, too. */
export const ownWord = z.object({ column: line.default('*'), text: line, field: line, meaning: line });
/** One with an `id` changes that word; one that is there already takes the new meaning. */
export const setWords = z.object({
  words: z
    .array(ownWord.extend({ id: id.optional() }))
    .min(1)
    .max(10_000),
});
/** What the words settled stays, or waits for a meaning again. */
export const removeWords = z.object({
  ids: z.array(id).min(1),
  rows: z.enum(['stay', 'wait again']).default('stay'),
});

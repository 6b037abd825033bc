import { z } from 'zod';
import { id, line } from '../fields.ts';

/** The casting that waiting spellings mean. */
const settlement = z.discriminatedUnion('as', [
  z.object({
    as: z.literal('casting'),
    /** Left out, the spelling that is written most often. */
    name: line.min(1).optional(),
    /** Left out, as the rows say, or unknown. */
    maker: line.min(1).optional(),
    series: line.min(1).optional(),
  }),
  z.object({ as: z.literal('same'), castingId: id }),
  z.object({ as: z.literal('release'), castingId: id, name: line.min(1).optional() }),
  z.object({ as: z.literal('not a car') }),
]);

/**
 * Each text is any spelling of a group that waits; all of its spellings are settled. A name is given
 * to one group only.
 */
export const settleNames = z.object({ texts: z.array(line.min(1)).min(1).max(5000), settlement });
export const partName = z.object({ text: line.min(1) });
/** Castings for a picker: those that hold the typed words, the likeliest to be meant by `name` first. */
export const nearCastings = z.object({
  name: line,
  text: line.default(''),
  limit: z.int().min(1).max(50).default(12),
});
/** `from` becomes `into`, with all that hangs on it. */
export const mergeReference = z.discriminatedUnion('what', [
  z.object({
    what: z.literal('casting'),
    into: id,
    from: id,
    /** The name of `from` stays, as that of a release; without it, it was a spelling. */
    keepName: z.boolean().default(false),
  }),
  z.object({ what: z.literal('release'), into: id, from: id }),
  z.object({ what: z.literal('variation'), into: id, from: id }),
]);
/** Castings that are of one series by one maker. */
export const moveCastings = z.object({
  ids: z.array(id).min(1).max(10_000),
  series: line.min(1),
  maker: line.min(1),
});
/** Each key is one of the variations seen. */
export const settleSeen = z.object({
  keys: z.array(z.string().min(1).max(5000)).min(1).max(5000),
  settlement: z.discriminatedUnion('as', [
    z.object({ as: z.literal('variation') }),
    z.object({ as: z.literal('same'), variationId: id }),
    /** What the colour that was written means. */
    z.object({ as: z.literal('word'), colour: line.min(1) }),
  ]),
});
/** What was settled, and which pairs were parted, by their ids. */
export const takeBackNames = z.object({
  settled: z.array(id).max(10_000).default([]),
  parted: z.array(id).max(10_000).default([]),
  /** Descriptions of cars that mean a variation. */
  variations: z.array(id).max(10_000).default([]),
});

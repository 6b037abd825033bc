import { z } from 'zod';
import { beliefLevels, finishStates } from '../../../valuation/words.ts';
import { amountFrom, currency, grade, id, isoDate, line } from '../fields.ts';

const figures = z.object({
  grade,
  finishState: z.enum(finishStates).default('original'),
  low: amountFrom(1, 'enter a price of more than zero'),
  high: amountFrom(1, 'enter a price of more than zero'),
  /** Without it, the reporting currency; and today. */
  currency: currency.optional(),
  believedOn: isoDate.optional(),
  note: line.default(''),
});
/** What the owner believes; with an id, instead of what was believed before. */
export const saveBelief = figures
  .extend({ id: id.optional(), level: z.enum(beliefLevels), of: id })
  .refine(({ low, high }) => low <= high, { error: 'low must not be above high', path: ['high'] });

/** Beliefs about what is named: a series, a casting, or a variation of it; amounts as decimal text. */
export const addBeliefs = z.object({
  rows: z
    .array(
      z.object({
        maker: line.default(''),
        series: line.default(''),
        casting: line.default(''),
        variation: line.default(''),
        grade: line,
        finish: line.default(''),
        low: line,
        high: line,
        currency: line.default(''),
        note: line.default(''),
      }),
    )
    .min(1)
    .max(10_000),
});
export type BeliefRow = z.output<typeof addBeliefs>['rows'][number];

import { expect, it } from 'vitest';
import { assumptionsSchema } from '../../../../electron/api/figures/assumptions-schema.ts';
import { defaultAssumptions } from '../../../../valuation/default-assumptions.ts';

it('a set from when "enough" went by a count of sales is read, and asks for no count', () => {
  const { work, widestEstimate, beliefSales, packagingGain, ...older } = defaultAssumptions('USD');
  const read = assumptionsSchema.parse({ ...older, leastEvidence: 3 });
  expect(read).toEqual(older);
});

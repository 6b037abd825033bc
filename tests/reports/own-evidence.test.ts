import { expect, it } from 'vitest';
import { ownEvidenceSentences } from '../../reports/model/own-evidence.ts';
import type { Evidence } from '../../valuation/types.ts';
import { sampleEntry, sampleReport, worth } from './sample-report.ts';

const resting = (shares: { sale: number; purchase: number; lot: number; belief: number }): Evidence =>
  ({ kinds: { shares } }) as Evidence;

it('says which figures rest mainly on what the owner paid or believes, how many and what they come to', () => {
  const report = sampleReport([0, 1, 2, 3, 4].map(i => sampleEntry(i)));
  const [a, b, c, d, e] = report.entries;
  for (const entry of [a, b, c, d, e])
    Object.assign(entry!, {
      status: 'in collection',
      basis: null,
      worths: { ...entry!.worths, asFound: worth(10, 2000, 40) },
    });
  a!.evidence = resting({ sale: 0.2, purchase: 0.1, lot: 0.7, belief: 0 });
  b!.evidence = resting({ sale: 0.4, purchase: 0.6, lot: 0, belief: 0 });
  c!.evidence = resting({ sale: 0.1, purchase: 0.2, lot: 0, belief: 0.7 });
  d!.evidence = resting({ sale: 0.6, purchase: 0.4, lot: 0, belief: 0 });
  // The owner's own figure rests on nothing that was paid or believed.
  Object.assign(e!, {
    evidence: a!.evidence,
    worths: { ...e!.worths, asFound: worth(10, 2000, 40, { own: true }) },
  });
  expect(ownEvidenceSentences(report)).toEqual([
    `2 values rest mainly on what the owner paid for such cars, and not on sale records (${report.currency} 40.00 of the total): ${a!.inventoryNumber}, ${b!.inventoryNumber}.`,
    `1 value rests mainly on what the owner believes that such cars bring, and not on sale records (${report.currency} 20.00 of the total): ${c!.inventoryNumber}.`,
  ]);
  a!.status = 'sold';
  b!.evidence = null;
  c!.evidence = null;
  expect(ownEvidenceSentences(report)).toEqual([]);
});

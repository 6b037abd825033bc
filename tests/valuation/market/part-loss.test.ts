import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { partsLog, recordPartsLog } from '../../../valuation/market/part-loss.ts';
import type { PartState } from '../../../valuation/types.ts';
import { partNames } from '../../../valuation/words.ts';
import { saleOf } from '../../helpers/markets/market-arbitrary.ts';

const { partLoss } = defaultAssumptions('USD');
const part = (name: PartState['part'], originality: PartState['originality']): PartState => ({
  part: name,
  grade: null,
  originality,
});

describe('partsLog', () => {
  it('multiplies what each loss leaves', () => {
    const parts = [
      part('wheels', 'missing'),
      part('glazing', 'reproduction'),
      part('axles', 'period replacement'),
    ];
    expect(Math.exp(partsLog(parts, partLoss))).toBeCloseTo(0.7 * 0.9 * 0.98, 12);
  });

  it('takes nothing off for original parts, and a part named twice once', () => {
    expect(partsLog([part('roof', 'original')], partLoss)).toBe(0);
    const twice = [part('roof', 'missing'), part('roof', 'reproduction')];
    expect(partsLog(twice, partLoss)).toBe(partsLog([part('roof', 'missing')], partLoss));
  });

  it('leaves a twentieth whatever is gone', () => {
    const all = partNames.map(name => part(name, 'missing'));
    const dearer = { ...partLoss, axles: { missing: 0.5, reproduction: 0, periodReplacement: 0 } };
    expect(Math.exp(partsLog(all, dearer))).toBeCloseTo(0.05, 12);
    const total = { ...partLoss, base: { missing: 1, reproduction: 1, periodReplacement: 1 } };
    expect(Math.exp(partsLog([part('base', 'missing')], total))).toBeCloseTo(0.05, 12);
  });

  it('loses most by missing, then by reproduction, then by period replacement, in the defaults', () => {
    for (const [part, { missing, reproduction, periodReplacement }] of Object.entries(partLoss)) {
      // What packaging adds is told apart.
      if (part === 'packaging') continue;
      expect(missing).toBeGreaterThan(reproduction);
      expect(reproduction).toBeGreaterThan(periodReplacement);
    }
  });
});

describe('recordPartsLog', () => {
  it('reads a record’s lists, a part in both as missing', () => {
    const record = saleOf({ missingParts: ['wheels'], reproductionParts: ['wheels', 'roof'] });
    expect(Math.exp(recordPartsLog(record, partLoss))).toBeCloseTo(0.7 * 0.85, 12);
    expect(recordPartsLog(saleOf({}), partLoss)).toBe(0);
  });
});

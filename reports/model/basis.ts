import type { ValueBasis } from '../../valuation/words.ts';
import type { Basis } from '../types.ts';

/**
 * The bases of value that a report can state. A report names one, with its definition and
 * the definition's source.
 */
export const bases: Record<ValueBasis, Basis> = {
  'fair market value': {
    name: 'fair market value',
    definition:
      'The price at which the object would change hands between a willing buyer and a willing seller, neither being under any compulsion to buy or to sell, and both having reasonable knowledge of the relevant facts.',
    source: 'United States Code of Federal Regulations, 26 CFR 20.2031-1(b)',
  },
  'retail replacement value': {
    name: 'retail replacement value',
    definition:
      'What it would cost to replace the object with one of like kind, age, quality and condition, bought in the market where such objects are usually sold, within a reasonable time.',
    source:
      'Common usage of appraisers and insurers; no single text governs it, and the wording of a policy comes before this one',
  },
};

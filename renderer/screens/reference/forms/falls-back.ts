import type { VariationRow } from '../../../../electron/api/views.ts';

/** What will fall back to the casting when the variation goes, as a sentence; null when nothing names it. */
export const whatFallsBack = ({ cars, saleRecords }: Pick<VariationRow, 'cars' | 'saleRecords'>) => {
  const named = [
    cars > 0 ? (cars === 1 ? '1 car' : `${cars} cars`) : '',
    saleRecords > 0 ? (saleRecords === 1 ? '1 sale record' : `${saleRecords} sale records`) : '',
  ].filter(Boolean);
  if (named.length === 0) return null;
  const verb = cars + saleRecords === 1 ? 'is' : 'are';
  return `${named.join(' and ')} ${verb} identified as this variation, and would be known by the casting only.`;
};

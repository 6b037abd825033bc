import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';
import type { Identification } from '../views.ts';
import type { IndexedVariation } from './reference-index.ts';

/**
 * Which of a casting's variations have all the chosen features, and which features still tell those apart,
 * with the number of variations left for each value: the most telling feature first.
 */
export const identifyAmong = (
  ofCasting: IndexedVariation[],
  chosen: Partial<Record<VariationFeature, string>>,
): { remaining: IndexedVariation[]; open: Identification['open'] } => {
  const wanted = variationFeatures.filter(feature => (chosen[feature] ?? '') !== '');
  const remaining = ofCasting.filter(variation =>
    wanted.every(feature => variation.features[feature].toLowerCase() === chosen[feature]?.toLowerCase()),
  );
  const open = variationFeatures
    .filter(feature => !wanted.includes(feature))
    .map(feature => {
      const counts = new Map<string, number>();
      for (const variation of remaining) {
        const value = variation.features[feature];
        counts.set(value, (counts.get(value) ?? 0) + 1);
      }
      return {
        feature,
        values: [...counts].map(([value, variations]) => ({ value, variations })),
        largest: Math.max(0, ...counts.values()),
      };
    })
    .filter(entry => entry.values.length > 1)
    // The answer that leaves the fewest in the worst case is asked for first.
    .sort((a, b) => a.largest - b.largest)
    .map(({ feature, values }) => ({ feature, values }));
  return { remaining, open };
};

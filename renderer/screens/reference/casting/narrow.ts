import type { VariationRow } from '../../../../electron/api/views.ts';
import { type VariationFeature, variationFeatures } from '../../../../valuation/words.ts';

/** The features that were seen on a car; an empty text is "none", which is an answer too. */
export type Seen = Partial<Record<VariationFeature, string>>;

export interface FeatureChoice {
  feature: VariationFeature;
  /** With the number of variations that would remain. */
  values: { value: string; variations: number }[];
}

/** The features in which several variations do not differ at all, with what they all have. */
export const sharedFeatures = (
  rows: readonly VariationRow[],
): { feature: VariationFeature; value: string }[] =>
  variationFeatures.flatMap(feature => {
    const [first, ...others] = rows.map(row => row.features[feature]);
    const alike = others.length > 0 && others.every(value => value === first);
    return first && alike && feature !== 'colour' ? [{ feature, value: first }] : [];
  });

const has = (row: VariationRow, seen: Seen, but?: VariationFeature): boolean =>
  variationFeatures.every(
    feature => feature === but || seen[feature] === undefined || row.features[feature] === seen[feature],
  );

/**
 * The variations that have all that was seen, and for every feature that tells variations apart what can
 * still be answered.
 */
export const narrow = (
  rows: readonly VariationRow[],
  seen: Seen,
): { remaining: VariationRow[]; choices: FeatureChoice[] } => {
  const choices = variationFeatures.flatMap(feature => {
    if (new Set(rows.map(row => row.features[feature])).size < 2) return [];
    const counts = new Map<string, number>();
    for (const row of rows)
      if (has(row, seen, feature))
        counts.set(row.features[feature], (counts.get(row.features[feature]) ?? 0) + 1);
    const values = [...counts].map(([value, variations]) => ({ value, variations }));
    return [{ feature, values: values.sort((a, b) => a.value.localeCompare(b.value, 'en')) }];
  });
  return { remaining: rows.filter(row => has(row, seen)), choices };
};

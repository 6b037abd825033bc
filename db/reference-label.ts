import { variationFeatures } from '../valuation/words.ts';
import type { VariationRecord } from './reference.ts';

/** How a base paint reads inside a line. */
const basePaintText: Record<string, string> = { none: 'bare base', full: 'full base paint' };

/**
 * One line for each of a casting's variations that names it among the others: its colour, then only the features in
 * which the casting's variations differ, then the release where two would still read the same.
 */
export const variationLabels = (ofOneCasting: VariationRecord[]): Map<number, string> => {
  const telling = variationFeatures.filter(
    feature => feature === 'colour' || new Set(ofOneCasting.map(one => one.features[feature])).size > 1,
  );
  const lines = ofOneCasting.map(variation => {
    const words = telling.flatMap(feature => {
      const value = variation.features[feature];
      return value === '' ? [] : [feature === 'basePaint' ? (basePaintText[value] ?? value) : value];
    });
    return { variation, line: words.join(', ') || variation.releaseName };
  });
  const times = new Map<string, number>();
  for (const { line } of lines) times.set(line, (times.get(line) ?? 0) + 1);
  return new Map(
    lines.map(({ variation, line }) => [
      variation.id,
      (times.get(line) ?? 0) > 1
        ? `${line} (${variation.releaseName}${variation.releaseYear === null ? '' : ` ${variation.releaseYear}`})`
        : line,
    ]),
  );
};

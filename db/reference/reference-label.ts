import { type VariationFeature, variationFeatures } from '../../valuation/words.ts';
import type { VariationRecord } from './reference.ts';

/** How a base paint reads inside a line. */
const basePaintText: Record<string, string> = { none: 'bare base', full: 'full base paint' };

/** What a collector looks at first; told wherever a casting's variations differ in it. */
const first: readonly VariationFeature[] = ['colour', 'basePaint', 'rearEnd'];
const further = variationFeatures.filter(feature => !first.includes(feature));

/**
 * The features that tell one variation from its fellows: the first ones, then as few others as are needed.
 */
const tellingFeatures = (one: VariationRecord, all: VariationRecord[], differing: Set<VariationFeature>) => {
  const chosen = first.filter(feature => feature === 'colour' || differing.has(feature));
  const same = (feature: VariationFeature, other: VariationRecord) =>
    other.features[feature].toLowerCase() === one.features[feature].toLowerCase();
  let alike = all.filter(other => other !== one && chosen.every(feature => same(feature, other)));
  for (const feature of further) {
    if (alike.length === 0) break;
    const left = alike.filter(other => same(feature, other));
    if (left.length < alike.length) chosen.push(feature);
    alike = left;
  }
  return chosen;
};

const release = ({ releaseName, releaseYear }: VariationRecord) =>
  `(${releaseName}${releaseYear === null ? '' : ` ${releaseYear}`})`;

/**
 * A variation's name among its casting's: whole, and what of it is not its colour, for where the
 * colour is shown apart.
 */
export interface VariationLabel {
  label: string;
  beyondColour: string;
}

/**
 * One line for each of a casting's variations that names it among the others: its colour, base paint and rear
 * end where the casting's variations differ in them, then as few further features as tell it apart, then the
 * release where two would still read the same.
 */
export const variationLabels = (ofOneCasting: VariationRecord[]): Map<number, VariationLabel> => {
  const differing = new Set(
    variationFeatures.filter(
      feature => new Set(ofOneCasting.map(one => one.features[feature].toLowerCase())).size > 1,
    ),
  );
  const lines = ofOneCasting.map(variation => {
    const words = tellingFeatures(variation, ofOneCasting, differing).flatMap(feature => {
      const value = variation.features[feature];
      if (value === '') return [];
      return [{ feature, word: feature === 'basePaint' ? (basePaintText[value] ?? value) : value }];
    });
    const join = (told: typeof words) => told.map(({ word }) => word).join(', ');
    return {
      variation,
      line: join(words) || variation.releaseName,
      beyondColour: join(words.filter(({ feature }) => feature !== 'colour')),
    };
  });
  const times = new Map<string, number>();
  for (const { line } of lines) times.set(line, (times.get(line) ?? 0) + 1);
  return new Map(
    lines.map(({ variation, line, beyondColour }) => [
      variation.id,
      { label: (times.get(line) ?? 0) > 1 ? `${line} ${release(variation)}` : line, beyondColour },
    ]),
  );
};

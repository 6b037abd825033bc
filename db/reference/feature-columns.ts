import { featureColumns } from '../../valuation/reading/feature-columns.ts';
import { readBasePaint } from '../../valuation/reading/words.ts';
import { type VariationFeature, variationFeatures } from '../../valuation/words.ts';
import { plain } from './plain.ts';

/**
 * A base paint as the reference names it, from the ways in which owners write it; other text comes back
 * plain.
 */
export const plainBasePaint = (text: string): string => {
  const paint = readBasePaint(text);
  return paint.ok ? paint.value : plain(text);
};

/** The features of which something is written. */
export const featuresWritten = (written: Record<string, string>): Partial<Record<VariationFeature, string>> =>
  Object.fromEntries(
    variationFeatures.flatMap(feature => {
      const text = (written[featureColumns[feature]] ?? '').trim();
      return text === '' ? [] : [[feature, text]];
    }),
  );

/** The release that a text names by a name of its own; '' where it names none. */
export const releaseNameWritten = (written: Record<string, string>, castingName: string): string => {
  const named = (written.release_name ?? '').trim();
  return plain(named) === plain(castingName) ? '' : named;
};

/** What was written of a car's features and its release, as it is compared. */
export const comparableTexts = (
  written: Record<string, string>,
  castingName: string,
): Record<string, string> => {
  const said: Record<string, string> = {};
  for (const [feature, text] of Object.entries(featuresWritten(written)))
    said[feature] = feature === 'basePaint' ? plainBasePaint(text) : plain(text);
  const release = releaseNameWritten(written, castingName);
  if (release) said.release = plain(release);
  const year = (written.release_year ?? '').trim();
  if (year) said.year = year;
  return said;
};

/** The same as one text, in which the order of the texts does not tell. */
export const seenText = (said: Record<string, string>): string => JSON.stringify(Object.entries(said).sort());

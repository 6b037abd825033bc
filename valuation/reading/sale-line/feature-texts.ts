import type { VariationFeature } from '../../words.ts';
import type { Lexicon, LexiconCasting } from './lexicon.ts';
import { spellingOf } from './spellings.ts';
import { escaped, fold } from './text.ts';

/** A pattern of any of these texts, the longest first. */
export const alternatives = (texts: Iterable<string>): string =>
  [...new Set(texts)]
    .filter(Boolean)
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(escaped)
    .join('|');

export /** Texts of a feature as this casting has them, and then as any other has. */
const textsOf = (
  lexicon: Lexicon,
  casting: LexiconCasting | null,
  feature: VariationFeature,
): Map<string, string> => {
  const own = (casting?.features[feature] ?? []).map(text => [fold(text).trim(), text] as const);
  return new Map([...(lexicon.features.get(feature) ?? []), ...own]);
};

/** The texts that a feature can be, as a line may write them. */
export interface FeatureTextsOfLine {
  texts: Map<string, string>;
  /** Any of them in any of its spellings; '' where there is none. */
  pattern: string;
  /** The text that a match of the pattern is; null where it can be two. */
  textOf(said: string): string | null;
}

const known = new WeakMap<Lexicon, Map<string, FeatureTextsOfLine>>();

/**
 * A feature's texts with their spellings; those of the casting may be shortened, the more so where the feature's
 * noun stands beside them (`isBeside`). Made once for each casting.
 */
export const featureTextsOf = (
  lexicon: Lexicon,
  casting: LexiconCasting | null,
  feature: VariationFeature,
  isBeside = false,
): FeatureTextsOfLine => {
  const ofLexicon = known.get(lexicon) ?? new Map<string, FeatureTextsOfLine>();
  known.set(lexicon, ofLexicon);
  const key = `${casting?.id ?? ''} ${feature} ${isBeside}`;
  const before = ofLexicon.get(key);
  if (before) return before;
  const own = new Set((casting?.features[feature] ?? []).map(text => fold(text).trim()));
  const texts = textsOf(lexicon, casting, feature);
  const spellings = [...texts]
    .filter(([folded]) => folded !== '')
    .sort(([a], [b]) => b.length - a.length || (a < b ? -1 : 1))
    .map(([folded, text]) => ({
      text,
      isOwn: own.has(folded),
      pattern: spellingOf(folded, { isShort: own.has(folded), isBeside: isBeside && own.has(folded) }),
    }));
  const made: FeatureTextsOfLine = {
    texts,
    pattern: spellings.map(({ pattern }) => pattern).join('|'),
    textOf(said) {
      const exact = texts.get(said);
      if (exact !== undefined) return exact;
      const fitting = spellings.filter(({ pattern }) => new RegExp(`^(?:${pattern})$`, 'u').test(said));
      const ofCasting = fitting.filter(({ isOwn }) => isOwn);
      const [only, another] = ofCasting.length > 0 ? ofCasting : fitting;
      return only && !another ? only.text : null;
    },
  };
  if (ofLexicon.size >= 5000) ofLexicon.clear();
  ofLexicon.set(key, made);
  return made;
};

import type { FeatureTexts } from '../../../db/reference/reference.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { plainWord } from '../../../valuation/reading/words.ts';
import { type FinishState, type Grade, variationFeatures } from '../../../valuation/words.ts';

interface Known {
  grade: Grade | null;
  finishState: FinishState;
  features: FeatureTexts;
}

/** For what a car is, the texts by which its owner calls that: "beater" for a C2, where they have said so. */
export const ownSynonyms = (words: readonly OwnWord[]): ((car: Known) => string[]) => {
  const texts = new Map<string, string[]>();
  const key = (field: string, value: string) => `${field}\u0001${plainWord(value)}`;
  for (const { text, field, meaning } of words) {
    if (text === '*' || meaning === '') continue;
    const own = key(field, meaning);
    texts.set(own, [...(texts.get(own) ?? []), text]);
  }
  if (texts.size === 0) return () => [];
  return ({ grade, finishState, features }) =>
    [
      grade === null ? '' : key('grade', String(grade)),
      key('finish_state', finishState),
      ...variationFeatures.map(feature => key(featureColumns[feature], features[feature])),
    ].flatMap(own => texts.get(own) ?? []);
};

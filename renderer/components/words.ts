import { useSyncExternalStore } from 'react';
import type { Currency } from '../../valuation/types.ts';
import { actionLabel } from '../../valuation/wording/action-label.ts';
import { featureNames } from '../../valuation/wording/cars/feature-names.ts';
import { type Dialect, dialect, spell } from '../../valuation/wording/dialect.ts';
import type { Reader } from '../../valuation/wording/reader.ts';
import {
  type OptionWords,
  optionWords,
  recommendationWord,
} from '../../valuation/wording/values/option-words.ts';
import { viewText } from '../../valuation/wording/view-text.ts';
import type { Option, Recommendation, VariationFeature } from '../../valuation/words.ts';
import { readerLocale } from './format.ts';

/** The words that differ by locale or that several screens say, in the reader's own spelling. */
export interface Words {
  locale: string;
  /** Words that the UK and the US write differently. */
  dialect: Dialect;
  /** A text in British words, in the reader's own. */
  spell: (text: string) => string;
  features: Record<VariationFeature, string>;
  option: (option: Option) => OptionWords;
  recommendation: (recommendation: Recommendation) => string;
  /** What a photograph shows, as it is stored. */
  view: (view: string) => string;
  /** The label of an action, as history holds it. */
  action: (label: string) => string;
  /** For the sentences of `valuation/wording`, with amounts in a currency. */
  reader: (currency: Currency) => Reader;
}

const wordsOf = (locale: string): Words => ({
  locale,
  dialect: dialect(locale),
  spell: text => spell(text, locale),
  features: featureNames(locale),
  option: option => optionWords(option, locale),
  recommendation: recommendation => recommendationWord(recommendation, locale),
  action: label => actionLabel(label, locale),
  view: view => viewText(view, locale),
  reader: currency => ({ locale, currency }),
});

let last: Words | null = null;

/** The reader's words, where no component asks: in columns and plain functions. */
export const readerWords = (): Words => {
  const locale = readerLocale();
  if (last?.locale !== locale) last = wordsOf(locale);
  return last;
};

const onLanguage = (changed: () => void) => {
  window.addEventListener('languagechange', changed);
  return () => window.removeEventListener('languagechange', changed);
};

/** The reader's words, drawn again when they change the language of their system. */
export const useWords = (): Words => useSyncExternalStore(onLanguage, readerWords);

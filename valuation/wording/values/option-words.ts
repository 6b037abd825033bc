import type { Option, Recommendation } from '../../words.ts';
import { dialect } from '../dialect.ts';

/** What is done with a car under an option, in the forms that labels and sentences need. */
export interface OptionWords {
  /** In a table or beside its mark: "restore". */
  name: string;
  /** On a button: "Restore it". */
  verb: string;
  /** After "to": "restore", "use for parts". */
  infinitive: string;
  /** As what is compared: "restoring". */
  doing: string;
  /** The same with its object: "restoring it". */
  doingIt: string;
}

const regular = (name: string, doing: string): OptionWords => ({
  name,
  verb: `${name.charAt(0).toUpperCase()}${name.slice(1)} it`,
  infinitive: name,
  doing,
  doingIt: `${doing} it`,
});

/** The words of an option, spelled as the locale does. */
export const optionWords = (option: Option, locale: string): OptionWords => {
  switch (option) {
    case 'leave':
      return regular('leave', 'leaving');
    case 'conserve':
      return regular('conserve', 'conserving');
    case 'restore':
      return regular('restore', 'restoring');
    case 'customise': {
      const { customise, customising } = dialect(locale);
      return regular(customise, customising);
    }
    case 'donor':
      return {
        name: 'donor',
        verb: 'Use it for parts',
        infinitive: 'use for parts',
        doing: 'using it for parts',
        doingIt: 'using it for parts',
      };
  }
};

/** A recommendation's word: "restore", "not enough evidence". */
export const recommendationWord = (recommendation: Recommendation, locale: string): string =>
  recommendation === 'not-enough-evidence' ? 'not enough evidence' : optionWords(recommendation, locale).name;

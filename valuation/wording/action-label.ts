import { spell } from './dialect.ts';

/** History holds its labels in British words, whoever reads them. */
export const labelLocale = 'en-GB';

/**
 * How labels begin in which the program names an option, a field or a step of work; the rest is its owner's.
 */
const ofTheProgram =
  /^(?:Decided to \S+|Changed the \S+ of |(?:Did|Changed) a step: .*|(?:Started|Stopped) the clock on .*|Added \d+ min to .*|Dismissed the call of a step: .*|(?:Looked at|To look at again): .*)/s;

/**
 * The label of an action as history holds it, in British words, for a reader of this locale (a BCP 47 tag):
 * "Decided to customise Q-001" is "Decided to customize Q-001" in the United States. Names that an owner gave
 * are left as they are.
 */
export const actionLabel = (label: string, locale: string): string =>
  label.replace(ofTheProgram, words => spell(words, locale));

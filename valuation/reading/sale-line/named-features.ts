import { textsOf } from './feature-texts.ts';
import type { Lexicon, LexiconCasting } from './lexicon.ts';
import type { Put } from './put.ts';
import { spellingOf } from './spellings.ts';
import { fold, type Line, type Span, spanOf, words } from './text.ts';
import { conditionWord, gone, numberWord, partNouns } from './vocabulary.ts';

const tails =
  /(?:^|[^\p{L}])(?:no|not|without|w\/o|ohne|sans|minus|never|lacks?|missing) (?:(?:the|a|any) )?$/u;

/** A text of the reference as it stands in a line. */
interface Spelled {
  text: string;
  span: Span;
  /** "without fins", where no such text of the reference says so. */
  isDenied: boolean;
}

/**
 * Where the line names what a feature can be, in any of its spellings, the longest first; shortened ones
 * where the casting is known, whose texts tell them apart. A text of one word counts for a rear end alone.
 */
const spelled = (
  line: Line,
  lexicon: Lexicon,
  casting: LexiconCasting | null,
  feature: 'rearEnd' | 'accessory' | 'wheels' | 'glazing',
): Spelled[] => {
  const own = new Set((casting?.features[feature] ?? []).map(text => fold(text).trim()));
  const between = feature === 'rearEnd' ? 'rear|back|tail' : undefined;
  const behind =
    feature === 'rearEnd'
      ? '(?: (?:at the )?(?:back|rear)(?: end)?)?'
      : feature === 'wheels'
        ? `(?: (?:${wheelNoun}))?`
        : '';
  const found: Spelled[] = [];
  const texts = [...textsOf(lexicon, casting, feature)]
    .filter(([folded]) => feature === 'rearEnd' || /[ -]/.test(folded))
    .sort(([a], [b]) => b.length - a.length || (a < b ? -1 : 1));
  for (const [folded, text] of texts)
    for (const match of line.matches(
      words(spellingOf(folded, { isShort: own.has(folded), between }) + behind),
    )) {
      const span = spanOf(match);
      if (found.some(other => span.start < other.span.end && other.span.start < span.end)) continue;
      const isDenied = !/^no(?:ne)? /.test(folded) && tails.test(line.rest().slice(0, span.start));
      found.push({ text, span, isDenied });
    }
  return found;
};

const wheelNoun = [...partNouns].flatMap(([noun, part]) => (part === 'wheels' ? [noun] : [])).join('|');

/**
 * What a casting can be without, such as "no fins", where the line says so: it is a rear end of its own, and
 * no part that is missing.
 */
export const takeDenied = (line: Line, casting: LexiconCasting | null, put: Put): void => {
  const texts = (casting?.features.rearEnd ?? []).filter(text => /^no(?:ne)? /i.test(text));
  for (const text of texts)
    for (const match of line.matches(words(spellingOf(fold(text).trim(), { between: 'rear|back' })))) {
      put('rear_end', text, spanOf(match));
      line.take(spanOf(match));
    }
};

/** Features that are named by several words, or by one that means nothing else, wherever they stand. */
export const takeNamed = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
  const kinds = [
    ['rear_end', 'rearEnd'],
    ['accessory', 'accessory'],
    ['wheels', 'wheels'],
  ] as const;
  for (const [field, feature] of kinds) {
    const found = spelled(line, lexicon, casting, feature).filter(({ span, isDenied }) => {
      if (isDenied) line.doubt(span);
      return !isDenied;
    });
    const [first] = found;
    if (first && new Set(found.map(({ text }) => text)).size === 1) put(field, first.text, first.span);
    for (const { span } of found) line.take(span);
    if (found.length > 0 || field !== 'rear_end') continue;
    const lamps = line.matches(
      words(
        `(?:[1-6]|${numberWord}|one) (?:lamps?|tail ?lamps?|tail ?lights?|lights?)(?<state> (?:is |are )?(?:${gone}|${conditionWord}))?`,
      ),
    );
    const [only] = lamps;
    if (lamps.some(match => match.groups?.state)) {
      for (const match of lamps) line.doubt(spanOf(match));
      continue;
    }
    if (only && lamps.length === 1)
      put(field, line.text.slice(spanOf(only).start, spanOf(only).end), spanOf(only));
    for (const match of lamps) line.take(spanOf(match));
  }
};

/** A kind of glazing of several words, such as "blue tint", where it stands without its noun. */
export const takeTint = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
  const own = new Set((casting?.features.glazing ?? []).map(text => fold(text).trim()));
  const found = spelled(line, lexicon, casting, 'glazing').filter(
    ({ text, isDenied, span }) => own.has(fold(text).trim()) && !isDenied && line.rest()[span.end] !== '?',
  );
  const [first] = found;
  if (!first || new Set(found.map(({ text }) => text)).size > 1) return;
  put('glazing', first.text, first.span);
  for (const { span } of found) line.take(span);
};

import type { FinishState } from '../../words.ts';
import { isMonth } from '../date.ts';
import { readFinishState, readYear } from '../words.ts';
import { type Lexicon, type LexiconCasting, wordsOf } from './lexicon.ts';
import type { Put } from './put.ts';
import { type Line, type Span, spanOf, words } from './text.ts';
import { partNoun } from './vocabulary.ts';

const states: [FinishState, string][] = [
  [
    'restored',
    '(?:fully |professionally |nicely |well )?restored(?: to original)?|resto|restauriert|restaure|restaurato|restaurado|gerestaureerd',
  ],
  ['touched up', 'touched[ -]up|touch[ -]?ups?|retouched|ausgebessert'],
  ['customised', 'customised|customized'],
  // "Custom" alone, and not of a part: "custom wheels" are no finish.
  ['customised', `custom(?! (?:${partNoun}|paint|colou?r|job|body|base|made|order|box|decals?)(?!\\p{L}))`],
  ['stripped', 'stripped(?: to (?:the )?bare metal)?|entlackt'],
  [
    'original',
    '(?:all |fully |completely )?(?:original|orig\\.?)(?: (?:paint|finish|condition))?|factory (?:paint|finish)|unrestored|originallack|originallackierung|originalzustand|peinture d.origine|pintura original|vernice originale|originele lak',
  ],
];
const denied =
  /(?:^|[^\p{L}])(?:not|no|never|part|partly|partially|semi|poorly|to be|be|could be|can be|needs?|in need of|half|non|nicht|like|as|than|possibly|maybe|probably|looks?) *-?$/u;
const belongsElsewhere = new RegExp(
  `^ (?:${partNoun}|screws?|threads?|box|blister|card|post|price|owner|ad|adverts?)(?!\\p{L})`,
  'u',
);

/** Said of the part or the box before it, as in "wheels original". */
const ofPartBefore = new RegExp(
  `(?<!\\p{L})(?:${partNoun}|box|blister|card|decals?|labels?) (?:(?:is|are|all|both) )*$`,
  'u',
);
const ofPaint = /paint|finish|condition|unrestored|lack|peinture|pintura|vernice/;

/** What became of the finish; what is denied, doubted, or contradicted stays unread. */
export const takeFinish = (line: Line, put: Put): void => {
  const found: { value: FinishState; span: Span }[] = [];
  for (const [state, pattern] of states)
    for (const match of line.matches(words(pattern))) {
      const span = spanOf(match);
      const rest = line.rest();
      const read = readFinishState(state);
      if (
        !read.ok ||
        denied.test(rest.slice(0, span.start)) ||
        (ofPartBefore.test(rest.slice(0, span.start)) && !ofPaint.test(match[0])) ||
        rest[span.end] === '?' ||
        belongsElsewhere.test(rest.slice(span.end))
      )
        line.doubt(span);
      else {
        found.push({ value: read.value, span });
        line.take(span);
      }
    }
  const said = new Set(found.map(({ value }) => value));
  // "Stripped and repainted": what it is now, restored or customised, is not said.
  if (said.has('stripped') && /re-?paint|over-?paint|re-?spray|lackier/.test(line.folded))
    said.add('restored');
  // Touching up is done to an original finish.
  if (said.size === 2 && said.has('touched up')) said.delete('original');
  const [state] = said;
  const first = found.find(({ value }) => value === state);
  if (first && said.size === 1) put('finish_state', first.value, first.span);
  else for (const { span } of found) line.doubt(span);
};

/** True where a year stands behind a month, as in "Nov 2024": it is no release's. */
const isOfMonth = (line: Line, { start }: Span): boolean =>
  isMonth(/(\p{L}{3,10})\.?,? $/u.exec(line.text.slice(0, start))?.[1] ?? '');

const sinceThen = /(?:^|[^\p{L}])(?:since|seit|depuis|desde|dal|sinds) $/u;
const inThen = /(?:^|[^\p{L}])(?:in|im|en|nel) $/u;
const happened =
  /(?:^|[^\p{L}])(?:bought|purchased|paid|acquired|owned|given|gift|inherited|got|had|found|sold|swapped|restored|repainted|painted|stripped|gekauft|bezahlt|bekommen|achete|paye|recu|comprado|comprato|gekocht)(?!\p{L})[^,;|()]*$/u;

/** True where a year is when something was done with the car, as in "paid 4/11 in 1970" and "mine since 1971". */
const isOfOwner = (line: Line, { start }: Span): boolean => {
  const before = line.folded.slice(0, start);
  return sinceThen.test(before) || (inThen.test(before) && happened.test(before));
};

/**
 * The year of the release. One of this century is a release's only where the casting has such a release or the
 * line begins with it: elsewhere it is as likely the sale's.
 */
export const takeYear = (line: Line, casting: LexiconCasting | null, put: Put): void => {
  const isOfRelease = (year: number, { start }: Span) =>
    year < 2000 ||
    line.text.slice(0, start).trim() === '' ||
    casting?.releases.some(one => one.year === year);
  const found = line.matches(words("(?:19[4-9]\\d|20[0-4]\\d)(?!['s])|'\\d{2}(?!['s])")).flatMap(match => {
    const read = readYear(match[0]);
    const span = spanOf(match);
    const isOther = isOfMonth(line, span) || isOfOwner(line, span);
    return read.ok && !isOther && isOfRelease(read.value, span) ? [{ value: read.value, span }] : [];
  });
  const [first] = found;
  const isOne = new Set(found.map(({ value }) => value)).size === 1;
  for (const { span } of found) isOne ? line.take(span) : line.doubt(span);
  if (first && isOne) put('release_year', String(first.value), first.span);
};

const rangesOf = new WeakMap<Lexicon, string[]>();

/** Patterns of the names of makers and series, and of the word by which a maker is called. */
const rangePatterns = (lexicon: Lexicon): string[] => {
  const known = rangesOf.get(lexicon);
  if (known) return known;
  const castings = [...lexicon.castings.values()];
  const whole = castings.flatMap(({ maker, series }) => [maker, series]);
  const inNames = new Set(lexicon.names.flatMap(({ words: ofName }) => ofName));
  const called = castings.flatMap(({ maker }) => {
    const [first = ''] = wordsOf(maker);
    return first.length >= 4 && !inNames.has(first) ? [`${first}(?: toys?)?`] : [];
  });
  const patterns = [...new Set([...whole.map(range => wordsOf(range).join('[ -]+')), ...called])].filter(
    Boolean,
  );
  rangesOf.set(lexicon, patterns);
  return patterns;
};

/** A car's maker or series, where the line names it. */
export const takeRanges = (line: Line, lexicon: Lexicon): void => {
  for (const pattern of rangePatterns(lexicon))
    for (const match of line.matches(words(pattern))) line.take(spanOf(match));
};

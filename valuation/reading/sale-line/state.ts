import type { FinishState } from '../../words.ts';
import { readFinishState, readGrade, readYear } from '../words.ts';
import { type Lexicon, wordsOf } from './lexicon.ts';
import type { Put } from './put.ts';
import { fold, type Line, type Span, spanOf, words } from './text.ts';
import { about, countries, gradedNoun, partNoun, sourceNoun } from './vocabulary.ts';

const number = '\\d{1,2}(?:[.,]\\d)?(?: ?½| 1/2)?';
const openGrade = new RegExp(
  `(?<![\\p{L}\\p{N}])(?:c ?${number} ?(?:-|to|bis|or|oder|ou|/) ?c?${number}(?!\\p{N})|c ?${number}(?:\\+|-(?![\\p{L}\\p{N}]))|c ?${number}\\?|c ?${number}(?:ish| ?-ish| at (?:best|most|least)| or (?:so|better|worse))|(?:${about}) ?(?:an? )?c ?${number}|(?:${gradedNoun}) c ?${number})(?![\\p{L}\\p{N}])`,
  'dgu',
);
const grade = words(
  `c ?(?<c>${number})|(?<ten>${number}) ?(?:/ ?10|out of 10|von 10|sur 10)|(?:zustand|grade|graded|condition|cond\\.?|etat|note)[ :]*(?<said>${number})(?! ?[-/+]\\d)`,
);

/** The one grade of the whole car; ranges, "C8+", a part's grade and several grades stay unread. */
export const takeGrade = (line: Line, put: Put): void => {
  for (const match of line.matches(openGrade))
    if (!/^c ?\d{1,2}(?:[.,]\d)?\/10$/.test(match[0])) line.doubt(spanOf(match));
  const found = line.matches(grade).flatMap(match => {
    const read = readGrade((match.groups?.c ?? match.groups?.ten ?? match.groups?.said ?? '').trim());
    if (!read.ok) line.doubt(spanOf(match));
    return read.ok ? [{ value: read.value, span: spanOf(match) }] : [];
  });
  const [first] = found;
  const isOne = new Set(found.map(({ value }) => value)).size === 1;
  for (const { span } of found) isOne ? line.take(span) : line.doubt(span);
  if (first && isOne) put('grade', String(first.value), first.span);
};

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
  /(?:^|[^\p{L}])(?:not|no|never|partly|partially|poorly|to be|be|could be|can be|needs?|in need of|half|non|nicht|like|as|than|possibly|maybe|probably|looks?) *-?$/u;
const belongsElsewhere = new RegExp(
  `^ (?:${partNoun}|screws?|threads?|box|blister|card|post|price|owner|ad|adverts?)(?!\\p{L})`,
  'u',
);

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

/** The year of the release. */
export const takeYear = (line: Line, put: Put): void => {
  const found = line.matches(words("(?:19[4-9]\\d|20[0-4]\\d)(?!['s])|'\\d{2}(?!['s])")).flatMap(match => {
    const read = readYear(match[0]);
    return read.ok ? [{ value: read.value, span: spanOf(match) }] : [];
  });
  const [first] = found;
  const isOne = new Set(found.map(({ value }) => value)).size === 1;
  for (const { span } of found) isOne ? line.take(span) : line.doubt(span);
  if (first && isOne) put('release_year', String(first.value), first.span);
};

const separate = new RegExp(`^(?:[\\p{L}'. ]{0,30} )?(?:${sourceNoun})(?: [\\p{L}'. ]{0,30})?$`, 'u');
const at = words(
  `(?:at|from|via|auf|bei|in) (?<place>(?:(?:a|an|the) )?(?:[\\p{L}']+ ){0,3}(?:${sourceNoun}))`,
);

const namedPlace =
  /(?<![\p{L}\p{N}])(?:at|on|via|from|bei|auf|chez|platform|plattform)\s+(?<place>\p{Lu}[\p{L}\p{N}'’&.-]+(?: \p{Lu}[\p{L}\p{N}'’&.-]+){0,3})/dgu;
const months = /^(?:jan|feb|m[aä]r|apr|ma[yi]|jun|jul|aug|sep|o[ck]t|nov|de[cz])/i;

/**
 * A place that has a name, as in "at Wobbleden", where nothing else of the line was understood by that name.
 */
export const takeNamedPlace = (line: Line, put: Put): void => {
  const rest = line.rest();
  const found = [...line.text.matchAll(namedPlace)].filter(match => {
    const { start, end } = spanOf(match, 'place');
    const isFree = !/[\ue000\ue001]/.test(rest.slice(match.index, end));
    const name = line.text.slice(start, end);
    // A line all in capitals names nothing by them.
    return (
      isFree &&
      !months.test(name) &&
      !isKnownCountry(name) &&
      /\p{Ll}/u.test(line.text.slice(0, start) + name)
    );
  });
  const [only] = found;
  if (!only || found.length > 1) return;
  const span = spanOf(only, 'place');
  const text = line.text.slice(span.start, span.end).replace(/[.]+$/, '');
  put('source', text, { start: span.start, end: span.start + text.length });
  line.take({ start: only.index, end: span.end });
};

const isKnownCountry = (name: string): boolean => countries.some(country => fold(country) === fold(name));

/** Where the sale was seen: a remark of its own that names a kind of place, or "at the … fair". */
export const takeSource = (line: Line, put: Put): void => {
  for (const piece of line.rest().matchAll(/[^\ue000,;|()[\]]+/g))
    for (const remark of piece[0].matchAll(/(?:(?! - )[\s\S])+/g)) {
      const trimmed = remark[0]
        .replace(/^[\s:*.!-]+|[\s:*.!-]+$/g, '')
        .replace(/^(?:at|from|via|auf|bei|in) (?:(?:an?|the) )?/, '');
      const start = piece.index + remark.index + remark[0].indexOf(trimmed);
      // "somebody at the fair gave": the place begins behind the preposition, and ends with its noun.
      if (!trimmed || !separate.test(trimmed) || /(?<!\p{L})(?:at|from|via) (?:the )?/u.test(trimmed))
        continue;
      const span = { start, end: start + trimmed.length };
      put('source', line.text.slice(span.start, span.end), span);
      line.take(span);
      return;
    }
  const [match] = line.matches(at);
  if (!match) return;
  const span = spanOf(match, 'place');
  put('source', line.text.slice(span.start, span.end).replace(/^(?:an?|the) /i, ''), span);
  line.take(spanOf(match));
};

/** A car's maker or series, where the line names it. */
export const takeRanges = (line: Line, lexicon: Lexicon): void => {
  const ranges = new Set([...lexicon.castings.values()].flatMap(({ maker, series }) => [maker, series]));
  for (const range of ranges) {
    const pattern = wordsOf(range).join('[ -]+');
    if (pattern) for (const match of line.matches(words(pattern))) line.take(spanOf(match));
  }
};

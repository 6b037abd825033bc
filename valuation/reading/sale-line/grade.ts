import { inFigures, saidNumber } from '../number-words.ts';
import { readGrade } from '../words.ts';
import type { Put } from './put.ts';
import { type Line, spanOf, words } from './text.ts';
import { about, gradedNoun, numberedGrade } from './vocabulary.ts';

const number = numberedGrade;
const openGrade = new RegExp(
  `(?<![\\p{L}\\p{N}])(?:c ?${number} ?(?:-|to|bis|or|oder|ou|/) ?c?${number}(?!\\p{N})|c ?${number}(?:\\+|-(?![\\p{L}\\p{N}]))|c ?${number}\\?|c ?${number}(?:ish| ?-ish| at (?:best|most|least)| or (?:so|better|worse))|(?:${about}) ?(?:an? )?c ?${number}|(?:${gradedNoun}) c ?${number})(?![\\p{L}\\p{N}])`,
  'dgu',
);
const scaleNoun = 'zustand|grade|graded|condition|cond\\.?|etat|note|cijfer|staat|conservazione|voto|estado';
const grade = words(
  `c ?(?<c>${number})|(?<ten>${number}) ?(?:/ ?10|out of 10|von 10|sur 10)|(?:${scaleNoun})[ :]*(?<said>${number})(?! ?[-/+]\\d)`,
);
/** A number in words or Roman numerals, where a grade stands: behind a C or a word of grades, or "of ten". */
const spokenGrade = words(
  `(?:c ?-?|(?:${scaleNoun})(?: (?:is|of))?[ :]*)(?<word>${saidNumber})(?<half> and a half)?(?: ?(?:/ ?(?:10|x)|out of (?:10|ten)))?|(?<ten>${saidNumber})(?<half2> and a half)? ?(?:/ ?(?:10|ten|x)|out of (?:10|ten)|von (?:10|zehn)|sur (?:10|dix))`,
);

/** The one grade of the whole car; ranges, "C8+", a part's grade and several grades stay unread. */
export const takeGrade = (line: Line, put: Put): void => {
  for (const match of line.matches(openGrade))
    if (!/^c ?\d{1,2}(?:[.,]\d)?\/10$/.test(match[0])) line.doubt(spanOf(match));
  const found = line.matches(grade).flatMap(match => {
    const read = readGrade((match.groups?.c ?? match.groups?.ten ?? match.groups?.said ?? '').trim());
    // German and French marks count the other way, or to twenty.
    const isMark = /^(?:zustand|note)/.test(match[0]) && Number(match.groups?.said) <= 6;
    if (!read.ok || isMark) line.doubt(spanOf(match));
    return read.ok && !isMark ? [{ value: read.value, span: spanOf(match) }] : [];
  });
  for (const match of line.matches(spokenGrade)) {
    const { word = '', ten = '', half, half2 } = match.groups ?? {};
    const read = readGrade(inFigures(word || ten, true) + (half || half2 ? '.5' : ''));
    if (read.ok) found.push({ value: read.value, span: spanOf(match) });
  }
  const [first] = found;
  const isOne = new Set(found.map(({ value }) => value)).size === 1;
  for (const { span } of found) isOne ? line.take(span) : line.doubt(span);
  if (first && isOne) put('grade', String(first.value), first.span);
};

/** A figure from 1 to 10 in halves at the end of a remark, beside nothing that it could be a number of. */
const bare =
  /(?<=(?:^|[,;|(\ue000] *| - |\p{L} ))(?<figure>(?:10|[1-9])(?:[.,]5| ?½)?)(?= *(?:$|[,;|)\ue000]| - ))/dgu;
const counts =
  /(?:^|[^\p{L}])(?:lot|no|nr|number|num|box|drawer|shelf|tin|bag|case|page|size|scale|mk|mark|series|type|set|cars?|x|of|table|stand|hall|row|item|kiste|schublade) *[#.:]? *$/u;

/** The figures of a line that can be grades and nothing else, as far as it is read. */
const bareFigures = (line: Line): { value: string; span: { start: number; end: number } }[] =>
  line.matches(bare).flatMap(match => {
    const span = spanOf(match, 'figure');
    const read = readGrade(line.text.slice(span.start, span.end));
    return read.ok && !counts.test(line.rest().slice(0, span.start))
      ? [{ value: String(read.value), span }]
      : [];
  });

/** The one figure that stands alone, as the grade; of two neither. */
export const takeBareGrade = (line: Line, put: Put): void => {
  const [only, another] = bareFigures(line);
  if (!only || another) return;
  put('grade', only.value, only.span);
  line.take(only.span);
};

/** The figure at the end of one of these remarks; null where none or two of them end with one. */
export const bareGradeIn = (remarks: readonly string[]): number | null => {
  const found = remarks.flatMap(
    text => /(?:^| )(?<figure>(?:10|[1-9])(?:[.,]5)?)$/.exec(text)?.groups?.figure ?? [],
  );
  const [only, another] = found;
  return only === undefined || another !== undefined ? null : Number(only.replace(',', '.'));
};

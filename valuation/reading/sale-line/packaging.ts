import type { Put } from './put.ts';
import { type Line, spanOf, words } from './text.ts';
import { gone, mint, numberedGrade, repro } from './vocabulary.ts';

const things =
  'box|blister(?: ?(?:card|pack|bubble))?|card|bag|baggie|packet|carton|schachtel|karton|boite|doos';
const own =
  '(?:(?:its|the|an?|original|orig\\.?|factory|matching|correct|complete|nice|good|worn|tatty|unopened|sealed|old) )*';
const rest = '(?! (?:only|for|set|of|lot|art|car|stock|[\\d#])(?!\\p{L}))';
const there = ' (?:is |still )*(?:present|included|there|complete)';
const kinds: Record<string, string> = {
  boxed: 'box',
  carded: 'card',
  bagged: 'bag',
  ovp: 'box',
  originalverpackung: 'box',
};

/** Said of the packaging, and of nothing else: the remark begins with its word. */
const alone = new RegExp(
  `(?<=(?:^|[,;|(\\ue000]|: ) *)(?<thing>${things}) (?:is |graded |condition |grade |in |: )*c ?(?<behind>${numberedGrade})(?![\\p{L}\\p{N}+-])`,
  'dgu',
);
/** Where the line has a grade besides, which is the car's. */
const besideGrade = [
  words(`(?<thing>${things}) (?:is |graded |condition |grade |in )*c ?(?<behind>${numberedGrade})(?![+-])`),
  words(`c ?(?<before>${numberedGrade}) (?<thing>${things})${rest}`),
];
const plain = [
  words(
    `(?:still |${mint} |sealed )*(?:with|w|in|on|incl\\.?|including|and|\\+|&|plus|has|mit|avec|in der|met) ${own}(?<thing>${things})${rest}(?:${there})?`,
  ),
  words(`(?:original|orig\\.?|factory) ${own}(?<thing>${things})${rest}(?:${there})?`),
  words('(?:mit |in (?:der )?)?(?<thing>boxed|carded|bagged|ovp|originalverpackung)'),
  words(`(?<thing>${things})${there}`),
];
const anyGrade = words(`c ?${numberedGrade}`);
const reproduced = words(
  `(?:${repro}) (?<thing>${things})|(?<thing2>${things}) (?:is )?(?:an? )?(?:${repro})`,
);
const doubtful = /(?:^|[^\p{L}])(?:no|not|without|w\/o|ohne|sans|missing|lacks?|needs?|for|from) *$/u;

const deniedBehind = new RegExp(
  `^ *(?:(?:is|was|has|now) )*(?:${gone}|not (?:there|present|included))(?!\\p{L})`,
  'u',
);

/**
 * The box, card or bag that a car comes with, and its own grade, which is not the car's. What is denied or
 * doubted is left to be unread.
 */
export const takePackaging = (line: Line, put: Put): void => {
  for (const match of line.matches(reproduced)) {
    const span = spanOf(match);
    const thing = match.groups?.thing ?? match.groups?.thing2 ?? '';
    put('packaging', `reproduction ${thing}`, span);
    line.take(span);
  }
  const hasTwo = line.matches(anyGrade).length > 1;
  for (const pattern of [alone, ...(hasTwo ? besideGrade : []), ...plain])
    for (const match of line.matches(pattern)) {
      const span = spanOf(match);
      const [before, behind] = [line.rest().slice(0, span.start), line.rest().slice(span.end)];
      if (doubtful.test(before) || behind.startsWith('?') || deniedBehind.test(behind)) {
        line.doubt(span);
        continue;
      }
      const thing = match.groups?.thing ?? '';
      put('packaging', kinds[thing] ?? thing, span);
      const grade = match.groups?.behind ?? match.groups?.before;
      if (grade !== undefined)
        put('packaging_grade', grade.replace(/ ?½| 1\/2/, '.5').replace(',', '.'), span);
      line.take(span);
    }
};

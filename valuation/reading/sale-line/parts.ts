import { type PartName, partNames } from '../../words.ts';
import { wheelsIn } from '../wheels.ts';
import { alternatives } from './feature-texts.ts';
import type { Lexicon, LexiconCasting } from './lexicon.ts';
import type { Put } from './put.ts';
import { formsAbroad, spellingOf } from './spellings.ts';
import { escaped, fold, type Line, type Span, spanOf, words } from './text.ts';
import {
  aboutPart,
  anyColour,
  bodyless,
  conditionWord,
  gone,
  partNoun,
  partNouns,
  repro,
  without,
} from './vocabulary.ts';

/** How many of a part, as in "1", "three of the four", "all 4". */
const counted = '(?:all |only )?(?:one|two|three|four|[1-6])(?: ?x)?(?: of (?:the |its )?(?:four|six|[46]))?';

/**
 * Parts of which one thing is said. Several stand together only where the first begins what is said: in "black
 * roof and canopy missing" the roof is there.
 */
const partList = (noun: string) => {
  const lead = `(?:(?:${counted}|the|a|front|frt|rear|rr|back|left|right|side|boot|trunk|both|all|some|its|original) )*`;
  const others = `(?: (?:and|und) (?:${noun})|(?: ?[&+] ?|/)(?:${noun}))+`;
  const list = `${lead}(?:${noun})(?:${others})?`;
  const begins = `(?<=(?:^|[^\\p{L}\\p{N} ]|(?<!\\p{L})(?:${repro}|${without}|${gone}|and|und|its|the)) *)`;
  const phrase = `(?:${begins}${list}|${lead}(?:(?:${anyColour}) )?(?:${noun}))`;
  return { phrase, list: `${phrase}(?![ -](?:${conditionWord}|${aboutPart})(?!\\p{L}))` };
};

const partsOf = (text: string, accessories: ReadonlySet<string>): PartName[] => {
  const found = new Set<PartName>();
  let isOfWheels = false;
  for (const word of accessories) if (text.search(words(escaped(word))) >= 0) found.add('accessory');
  for (const word of text.match(/\p{L}+/gu) ?? []) {
    const part = partNouns.get(word);
    if (part && part !== 'wheels') found.add(part);
    else if (part) isOfWheels = true;
  }
  if (isOfWheels) {
    const placed = wheelsIn(text);
    for (const wheel of placed.length > 0 ? placed : ['wheels' as const]) found.add(wheel);
  }
  return partNames.filter(part => found.has(part));
};

/**
 * The words for an accessory: the whole text, its last word, and that in other spellings beside "without".
 */
const accessoryWords = (lexicon: Lexicon, casting: LexiconCasting | null): Set<string> => {
  const texts = casting?.features.accessory?.length
    ? casting.features.accessory.map(text => fold(text).trim())
    : [...(lexicon.features.get('accessory')?.keys() ?? [])];
  const heads = texts.flatMap(text => {
    const head = text.split(' ').at(-1) ?? '';
    if (head.length <= 2) return [text];
    const one = head.replace(/(?<=[^s])s$/, '');
    // A long word's end, as in "chute" of "parachute".
    const ends = head.length < 8 ? [] : [head.slice(-5), head.slice(-6)];
    return [text, ...formsAbroad(head).split('|'), head, one, `${head}s`, `${head}e`, `${head}n`, ...ends];
  });
  return new Set(heads.filter(head => head !== '' && !partNouns.has(head)));
};

/** Parts that are missing or reproductions; what is denied of them is left unread. */
export const takeParts = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
  const accessories = accessoryWords(lexicon, casting);
  const noun = [alternatives(accessories), partNoun].filter(Boolean).join('|');
  const { phrase, list } = partList(noun);
  const doubtAll = (pattern: RegExp) => {
    for (const match of line.matches(pattern)) line.doubt(spanOf(match));
  };
  doubtAll(
    words(
      `(?:no|not|never|without|w/o|ohne|keine) (?:(?:${list}) |parts? |pieces? )?(?:${repro}|missing|fehlt)(?: (?:${list}|parts?))?`,
    ),
  );
  doubtAll(words('(?:nothing|not) (?:is )?(?:missing|reproduction)'));
  doubtAll(words(`(?:no|without|w/o|ohne) (?:box|blister|${bodyless})`));
  const collect = (field: string, patterns: string[]) => {
    const found = new Set<PartName>();
    let first: Span | null = null;
    for (const pattern of patterns)
      for (const match of line.matches(words(pattern))) {
        const span = spanOf(match);
        const parts = partsOf(match[0], accessories);
        if (parts.length === 0 || line.rest()[span.end] === '?') {
          line.doubt(span);
          continue;
        }
        for (const part of parts) found.add(part);
        first ??= span;
        line.take(span);
      }
    if (first) put(field, partNames.filter(part => found.has(part)).join(','), first);
  };
  const is = '(?: (?:is|are|was|were|ist|sind))?';
  collect('reproduction_parts', [
    `(?:${counted} )?(?:${repro}) (?:${list})(?! (?:${gone})(?!\\p{L}))`,
    `(?:${list})${is}(?: all| both| an?)? (?:${repro})(?: too)?`,
    `(?:(?:has|have) had )?(?:its |the )?(?:${phrase})${is}(?: been)? (?:swapped|replaced|changed|exchanged)(?: out)? (?:for|with|by) (?:an? )?(?:${repro})`,
  ]);
  collect('missing_parts', [`(?:${list})${is} (?:${gone})`, `(?:${without}) (?:${list})`]);
};

/**
 * What belongs to a car, where the line says that it is there: "with canopy", "parachute present", or the
 * word alone between commas. What it is needed for, or said to be without, is left unread.
 */
export const takeAccessory = (
  line: Line,
  lexicon: Lexicon,
  casting: LexiconCasting | null,
  put: Put,
): void => {
  const texts = casting?.features.accessory?.length
    ? new Map(casting.features.accessory.map(text => [fold(text).trim(), text]))
    : (lexicon.features.get('accessory') ?? new Map<string, string>());
  const found: { text: string; span: Span }[] = [];
  for (const [folded, text] of texts) {
    const thing = `(?:(?:the|a|an|its|both|all|original|orig\\.?|two|complete) )*(?<thing>${spellingOf(folded, { isShort: casting !== null })})`;
    const there =
      '(?: (?:is |are |still )*(?:present|there|included|intact|complete|ok|okay|good|fine|vorhanden|dabei|aanwezig|presente?s?))';
    const beside =
      '(?:complete with|with|w\\.?|incl\\.?|including|has|have|and|&|\\+|plus|mit|avec|met|con|both)';
    for (const pattern of [
      `${beside} +${thing}${there}?`,
      `${thing}${there}`,
      `(?<=(?:^|[,;|/(\\ue000] *))${thing}(?= *(?:$|[,;|/)\\ue000]))`,
    ])
      for (const match of line.matches(pattern.startsWith('(?<=') ? alone(pattern) : words(pattern))) {
        const span = spanOf(match);
        if (line.rest()[span.end] === '?') line.doubt(span);
        else {
          found.push({ text, span });
          line.take(span);
        }
      }
  }
  const [first] = found;
  if (first && new Set(found.map(({ text }) => text)).size === 1) put('accessory', first.text, first.span);
};

const alones = new Map<string, RegExp>();
/** A pattern that brings its own ends. */
const alone = (pattern: string): RegExp => {
  const known = alones.get(pattern);
  if (known) return known;
  if (alones.size >= 500) alones.clear();
  const made = new RegExp(pattern, 'dgu');
  alones.set(pattern, made);
  return made;
};

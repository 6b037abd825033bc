import { type PartName, partNames, type VariationFeature } from '../../words.ts';
import { readBasePaint } from '../words.ts';
import type { Lexicon, LexiconCasting } from './lexicon.ts';
import { escaped, fold, type Line, type Span, spanOf, words } from './text.ts';
import {
  aboutPart,
  anyColour,
  bodyless,
  colourWords,
  conditionWord,
  countries,
  gone,
  numbers,
  numberWord,
  partNoun,
  partNouns,
  plainColour,
  repro,
  without,
} from './vocabulary.ts';

/** What is found of a field, and where. */
export type Put = (field: string, value: string, span: Span) => void;

const alternatives = (texts: Iterable<string>): string =>
  [...new Set(texts)]
    .filter(Boolean)
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(escaped)
    .join('|');

/** Texts of a feature as this casting has them, and then as any other has. */
const textsOf = (
  lexicon: Lexicon,
  casting: LexiconCasting | null,
  feature: VariationFeature,
): Map<string, string> => {
  const own = (casting?.features[feature] ?? []).map(text => [fold(text).trim(), text] as const);
  return new Map([...(lexicon.features.get(feature) ?? []), ...own]);
};

/** Spellings of a text with its numbers as words and as figures. */
const spellings = (text: string): string[] => {
  const [first = '', ...rest] = text.split(' ');
  const figure = Object.entries(numbers).find(([, word]) => word === first)?.[0];
  if (!figure) return [text];
  const both = [text, [figure, ...rest].join(' ')];
  // "the two lamp back".
  return /s$/.test(text) ? [...both, ...both.map(one => one.slice(0, -1))] : both;
};

/** Features that are named by several words, or by one that means nothing else, wherever they stand. */
export const takeNamed = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
  const kinds = [
    ['rear_end', 'rearEnd'],
    ['accessory', 'accessory'],
    ['wheels', 'wheels'],
  ] as const;
  for (const [field, feature] of kinds) {
    const texts = textsOf(lexicon, casting, feature);
    const found = [...texts].flatMap(([folded, text]) => {
      if (feature !== 'rearEnd' && !folded.includes(' ')) return [];
      const pattern = alternatives(spellings(folded));
      return line
        .matches(words(`(?:${pattern})(?: at the (?:back|rear))?`))
        .map(match => ({ text, span: spanOf(match) }));
    });
    if (new Set(found.map(({ text }) => text)).size === 1 && found[0])
      put(field, found[0].text, found[0].span);
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

const partList = (noun: string) => {
  const phrase = `(?:(?:the|a|one|two|front|rear|both|all|some|its|original) )*(?:(?:${anyColour}) )?(?:${noun})(?: (?:and|und) (?:${noun})| ?[&+/] ?(?:${noun}))*`;
  return `${phrase}(?![ -](?:${conditionWord}|${aboutPart})(?!\\p{L}))`;
};

const partsOf = (text: string, accessories: ReadonlySet<string>): PartName[] => {
  const found = new Set<PartName>();
  for (const word of accessories) if (words(escaped(word)).test(text)) found.add('accessory');
  for (const word of text.match(/\p{L}+/gu) ?? []) {
    const part = partNouns.get(word);
    if (part) found.add(part);
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
    return head.length > 2 ? [text, head, `${head}s`, `${head}e`, `${head}n`] : [text];
  });
  return new Set(heads.filter(head => head !== '' && !partNouns.has(head)));
};

/** Parts that are missing or reproductions; what is denied of them is left unread. */
export const takeParts = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
  const accessories = accessoryWords(lexicon, casting);
  const noun = [alternatives(accessories), partNoun].filter(Boolean).join('|');
  const list = partList(noun);
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
  collect('reproduction_parts', [`(?:${repro}) (?:${list})`, `(?:${list})${is} (?:${repro})`]);
  collect('missing_parts', [`(?:${list})${is} (?:${gone})`, `(?:${without}) (?:${list})`]);
};

const baseTexts = [
  '(?:fully? |completely |all )?(?:full|fully|completely|all) ?-?(?:paint(?:ed)? )?base(?:plate)?(?: paint(?:ed)?)?',
  '(?:bare|unpainted|no paint) base(?:plate)?|base(?:plate)?:? (?:is )?(?:bare|unpainted|not painted|fully painted|all painted)',
  '(?:front|frt|frnt|rear|rr|back)\\.?[ -](?:quarter|qtr|qrtr|1/4)\\.?(?: (?:of )?(?:the )?(?:base )?(?:is )?(?:painted|paint|ptd))?(?: base)?',
  '(?:front|frt|frnt|rear|rr|back)\\.?(?: (?:half|end|part))?(?: of(?: the)?)? base(?:plate)? (?:is )?(?:painted|paint|ptd)',
  'base(?:plate)? (?:is )?(?:painted|ptd) (?:at the )?(?:front|frt|frnt|rear|rr|back)',
];

/** How much of the base is painted, where it is said of the base. */
export const takeBasePaint = (line: Line, put: Put): void => {
  const found = line.matches(words(baseTexts.join('|'))).flatMap(match => {
    const said = match[0].replace(/-/g, ' ');
    const side = /\b(?:(front|frt|frnt)|rear|rr|back)\b/.exec(said);
    const paint = side
      ? `${side[1] ? 'front' : 'rear'} quarter`
      : /bare|unpainted|no paint|not painted/.test(said)
        ? 'unpainted'
        : 'full';
    const read = readBasePaint(paint);
    return read.ok ? [{ value: read.value, span: spanOf(match) }] : [];
  });
  if (new Set(found.map(({ value }) => value)).size === 1 && found[0])
    put('base_paint', found[0].value, found[0].span);
  for (const { span } of found) line.take(span);
};

/** The country that stands on the base, where it is said of the car and not of the sale. */
export const takeCountry = (line: Line, lexicon: Lexicon, put: Put): void => {
  const texts = new Map([
    ...countries.map(name => [fold(name), name] as const),
    ...(lexicon.features.get('country') ?? []),
  ]);
  const names = alternatives(texts.keys());
  const pattern = words(
    `made in (?<after>${names})|(?<before>${names})[ -](?:made|base|baseplate|version|issue|casting)|base:? (?<behind>${names})`,
  );
  for (const match of line.matches(pattern)) {
    const span = spanOf(match);
    const name = match.groups?.after ?? match.groups?.before ?? match.groups?.behind ?? '';
    if (line.rest()[span.end] === '?') line.doubt(span);
    else {
      put('country', texts.get(name) ?? name, span);
      line.take(span);
    }
  }
};

const featureParts = [
  ['roof', 'roof', 'roof|dach|toit|techo|tetto|dak'],
  ['interior', 'interior', 'interior|interieur|innenraum|inneneinrichtung|seats'],
  ['glazing', 'glazing', 'glass|glazing|windows|glas|scheiben|windshield|windscreen'],
  ['wheels', 'wheels', 'wheels|rader'],
] as const;

/** The text as its writer put it, without the ending that a German noun gives its colour. */
const plainly = (line: Line, match: RegExpExecArray, group: string, ending: string): string => {
  const span = spanOf(match, group);
  return line.text.slice(span.start, span.end - (match.groups?.[ending]?.length ?? 0));
};

/**
 * Roof, interior, glazing and wheels, by what stands beside their nouns; other nouns with a colour
 * are left unread.
 */
export const takePartColours = (
  line: Line,
  lexicon: Lexicon,
  casting: LexiconCasting | null,
  put: Put,
): void => {
  for (const [field, feature, nouns] of featureParts) {
    const texts = textsOf(lexicon, casting, feature);
    const own = alternatives(texts.keys());
    // A kind of wheels is what the reference says it is; a colour in plain words is none.
    if (feature === 'wheels' && !own) continue;
    const plain = feature === 'wheels' ? '' : plainColour;
    const value = `(?<value>${[own, plain].filter(Boolean).join('|')})`;
    const before = words(`${value} (?:${nouns})(?<state> (?:is |are )?(?:${conditionWord})(?!\\p{L}))?`);
    const after = words(`(?:${nouns}):? (?:is |are |in )?${value}(?! (?:${partNoun})(?!\\p{L}))`);
    for (const pattern of [before, after]) {
      const matches = line.matches(pattern);
      const [only] = matches;
      for (const match of matches) {
        const span = spanOf(match);
        // Colour beside a remark on condition is a remark, too.
        if (matches.length > 1 || match.groups?.state || line.rest()[span.end] === '?') {
          line.doubt(span);
          continue;
        }
        if (match !== only) continue;
        const said = match.groups?.value ?? '';
        put(field, texts.get(said) ?? plainly(line, match, 'value', 'ending'), span);
        line.take(span);
      }
    }
  }
  const others = `${partNoun}|stripes?|trim|flames?|numbers?|line|lines|box|card|badge|spots?|marks?|engine|chrome|lamps?|lights?`;
  for (const match of line.matches(
    words(`(?:${anyColour}) (?:${others})|original (?:${others})|(?:${others}) original`),
  ))
    line.doubt(spanOf(match));
};

/** True for "Silver" in "Silver Kite", where that is no car that is known: a name as likely as a colour. */
const isPartOfName = (line: Line, { start, end }: Span): boolean => {
  const next = /^ \p{Lu}\p{Ll}+/u.exec(line.text.slice(end))?.[0].trim();
  return /\p{Lu}/u.test(line.text[start] ?? '') && next !== undefined && !colourWords.has(fold(next));
};

const saidOfColour =
  /^(?:nice|faded|bright|good|great|lovely|very|rare|scarce|original|glossy|shiny|worn|clean|body|colou?r|paint|farbe|couleur|with|this|that|from|some|repainted|painted|factory|pretty|still|mostly|all|in|and|the|a|an|or)$/;

/**
 * A remark of one word beside a colour, such as "dairy white" where no reference has it: a name of a
 * colour, and not white.
 */
const nameOfColour = (line: Line, { start, end }: Span): Span | null => {
  const rest = line.rest();
  const begin = Math.max(...[...'\ue000,;|('].map(sign => rest.lastIndexOf(sign, start - 1))) + 1;
  // With a capital a word belongs to a car's name.
  const shown = line.text.slice(begin, start);
  const word = /^\s*(?:\p{Lu}[\p{L}'’.-]* )*(?<word>\p{Ll}{4,}) $/u.exec(shown)?.groups?.word;
  if (!word || saidOfColour.test(fold(word)) || colourWords.has(fold(word))) return null;
  return /^ *(?:$|[\ue000,;|)])/u.test(rest.slice(end)) ? { start: start - word.length - 1, end } : null;
};

/**
 * The colour of the body: by the reference's name for it, or as it was written where it is a
 * plain word for one.
 */
export const takeColour = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
  const texts = textsOf(lexicon, casting, 'colour');
  const found: { value: string; span: Span }[] = [];
  const own = alternatives(texts.keys());
  if (own)
    for (const match of line.matches(words(own)))
      found.push({ value: texts.get(match[0]) ?? match[0], span: spanOf(match) });
  for (const { span } of found) line.take(span);
  const isNamed = found.length > 0;
  if (!isNamed)
    for (const match of line.matches(words(`(?<value>${plainColour})`))) {
      const named = nameOfColour(line, spanOf(match));
      if (named) line.doubt(named);
      else if (casting || !isPartOfName(line, spanOf(match)))
        found.push({ value: plainly(line, match, 'value', 'ending'), span: spanOf(match) });
    }
  const [first] = found;
  const isOne = new Set(found.map(({ value }) => fold(value))).size === 1;
  for (const { span } of found)
    if (isOne && line.folded[span.end] !== '?') line.take(span);
    else line.doubt(span);
  if (first && isOne && line.folded[first.span.end] !== '?') put('colour', first.value, first.span);
};

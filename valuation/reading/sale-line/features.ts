import { isShortened, onlyColourWith, plainColourText, shortColours } from '../plain-colour.ts';
import { readBasePaint } from '../words.ts';
import { alternatives, featureTextsOf } from './feature-texts.ts';
import type { Lexicon, LexiconCasting } from './lexicon.ts';
import type { Put } from './put.ts';
import { spellingOf } from './spellings.ts';
import { fold, type Line, type Span, spanOf, words } from './text.ts';
import { anyColour, colourWords, conditionWord, countries, partNoun, plainColour } from './vocabulary.ts';

const shortColour = alternatives(shortColours);

const baseTexts = [
  '(?:fully? |completely |all )?(?:full|fully|completely|all) ?-?(?:paint(?:ed)? )?base(?:plate)?(?: paint(?:ed)?)?',
  '(?:bare|unpainted|no paint) base(?:plate)?|base(?:plate)?:? (?:is )?(?:bare|unpainted|not painted|fully painted|all painted)',
  '(?:front|frt|frnt|rear|rr|back|bk)\\.?[ -](?:quarter|qtr|qrtr|1/4)\\.?(?: (?:of )?(?:the )?(?:base )?(?:is )?(?:painted|paint|ptd))?(?: base)?',
  '(?:front|frt|frnt|rear|rr|back)\\.?(?: (?:half|end|part))?(?: of(?: the)?)? base(?:plate)? (?:is )?(?:painted|paint|ptd)',
  '(?:no paint|unpainted|bare metal) on (?:the )?base(?:plate)?',
  '(?:front|frt|rear|rr|back|bk) (?:quarter|qtr|1/4) (?:of )?(?:the )?base',
  'base(?:plate)? (?:is )?(?:painted|ptd) (?:at the )?(?:front|frt|frnt|rear|rr|back)',
];

/** How much of the base is painted, where it is said of the base. */
export const takeBasePaint = (line: Line, put: Put): void => {
  const found = line.matches(words(baseTexts.join('|'))).flatMap(match => {
    const said = match[0].replace(/-/g, ' ');
    const side = /\b(?:(front|frt|frnt)|rear|rr|back|bk)\b/.exec(said);
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
export const takeCountry = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
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
  takeLoneCountry(line, casting, put);
};

/** What a country is shortened to. Common practice, no source. */
const shortCountries: Readonly<Record<string, string>> = {
  'hong kong': 'hk|h\\.k\\.|hongkong',
  usa: 'u\\.s\\.a\\.',
};
const ofSale =
  /(?:^|[^\p{L}])(?:in|from|to|at|via|of|ships?|shipped|shipping|seller|sold|aus|nach|de|van|uit) *(?:the )?$/u;

/** A country that the casting was made in, where it stands without more words: of the sale it is only with them. */
const takeLoneCountry = (line: Line, casting: LexiconCasting | null, put: Put): void => {
  const found = (casting?.features.country ?? []).flatMap(name => {
    const forms = [spellingOf(fold(name).trim()), shortCountries[fold(name).trim()]]
      .filter(Boolean)
      .join('|');
    return line
      .matches(words(forms))
      .map(match => ({ name, span: spanOf(match) }))
      .filter(({ span }) => !ofSale.test(line.rest().slice(0, span.start)) && line.rest()[span.end] !== '?');
  });
  const [first] = found;
  if (!first || new Set(found.map(({ name }) => name)).size > 1) return;
  put('country', first.name, first.span);
  for (const { span } of found) line.take(span);
};

const featureParts = [
  ['roof', 'roof', 'roof|rf|dach|toit|techo|tetto|dak'],
  [
    'interior',
    'interior',
    'interior|int\\.?|interieur|innenraum|inneneinrichtung|seats|seat|upholstery|sitze|interni',
  ],
  [
    'glazing',
    'glazing',
    'glass|gls|glazing|windows|window|glas|scheiben|ruiten|vitres|vetri|windshield|windscreen|wshld|wndshld|screen|verglasung',
  ],
  ['wheels', 'wheels', 'wheels|whls|rader|wielen|roues'],
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
    const { pattern: own, textOf } = featureTextsOf(lexicon, casting, feature, true);
    // A kind of wheels is what the reference says it is; a colour in plain words is none.
    if (feature === 'wheels' && !own) continue;
    const plain = feature === 'wheels' ? '' : `${plainColour}|(?:${shortColour})`;
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
        const shown = plainly(line, match, 'value', 'ending');
        put(field, textOf(said) ?? (isShortened(said) ? (plainColourText(said) ?? shown) : shown), span);
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

const painting =
  '(?:re|over)?-? ?painted(?: over)?|(?:re-?)?sprayed|(?:um|neu |nach|uber)lackiert|repeinte?s?|repintad[oa]|(?:ri)?verniciat[oa]|overgespoten|touched (?:up|in)|now';
const paintedBefore = new RegExp(
  `(?:^|[^\\p{L}])(?:${painting}) (?:(?:all|in|an?|the|with|en|di|gloss|matt|bright|dark|light) )*$`,
  'u',
);

/** True of the colour that a car was given later, as in "repainted green" and "green repaint": it left the factory in another. */
const isPaintedOver = ({ folded }: Line, { start, end }: Span): boolean =>
  paintedBefore.test(folded.slice(0, start)) || /^ (?:re|over)-?(?:paint|spray)/.test(folded.slice(end));

/**
 * The colour of the body: by the reference's name for it, or as it was written where it is a
 * plain word for one.
 */
export const takeColour = (line: Line, lexicon: Lexicon, casting: LexiconCasting | null, put: Put): void => {
  const { pattern: own, textOf } = featureTextsOf(lexicon, casting, 'colour');
  const found: { value: string; span: Span }[] = [];
  if (own)
    for (const match of line.matches(words(own))) {
      const value = textOf(match[0]);
      if (value === null) continue;
      if (isPaintedOver(line, spanOf(match))) line.doubt(spanOf(match));
      else found.push({ value, span: spanOf(match) });
    }
  for (const { span } of found) line.take(span);
  const isNamed = found.length > 0;
  if (!isNamed)
    for (const match of line.matches(words(`(?<value>${plainColour})`))) {
      const named = nameOfColour(line, spanOf(match));
      if (isPaintedOver(line, spanOf(match))) line.doubt(spanOf(match));
      else if (named) line.doubt(named);
      else if (casting || !isPartOfName(line, spanOf(match)))
        found.push({
          value:
            onlyColourWith(match[0], casting?.features.colour ?? [], lexicon.colours) ??
            plainly(line, match, 'value', 'ending'),
          span: spanOf(match),
        });
    }
  const [first] = found;
  const isOne = new Set(found.map(({ value }) => fold(value))).size === 1;
  for (const { span } of found)
    if (isOne && line.folded[span.end] !== '?') line.take(span);
    else line.doubt(span);
  if (first && isOne && line.folded[first.span.end] !== '?') put('colour', first.value, first.span);
};

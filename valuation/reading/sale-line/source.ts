import type { Put } from './put.ts';
import { fold, type Line, spanOf, words } from './text.ts';
import { countries, sourceNoun } from './vocabulary.ts';

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

/** Words of an offer beside its price, which is taken. Common practice, no source. */
const offer = words(
  '(?:asked|offered(?: at| for)?|for sale(?: at| for)?|listed(?: at| for)?|buy[ -]it[ -]now|bin|vh?b|festpreis|sofortkauf|prix demande|vraagprijs)(?=:? *\\ue000)|' +
    '(?<=\\ue000,? *)(?:asked|o\\.?n\\.?o\\.?|o\\.?b\\.?o\\.?|or (?:near|nearest|best) offer|vh?b|festpreis|buy[ -]it[ -]now|bin|firm|fixed(?: price)?|negotiable|open to offers)|' +
    '(?:\\d+ )?watch(?:ers?|ing)|(?:ends|ending|closes|closing)(?: on| at)?(?= *\\ue000)',
);

/** A line that says at its head that the car was sold, however it was offered. */
const soldFirst = /^[^\p{L}]*(?:sold|verkauft|vendue?|venduto|vendido|verkocht)(?!\p{L})/u;

/** What is asked for a car is the price of no sale, and its source says so, unless the line says what it brought. */
export const takeOffer = (line: Line, isSaid: boolean, put: Put): void => {
  const [first, ...more] = line.matches(offer);
  if (!first || isSaid || soldFirst.test(fold(line.text))) return;
  put('source', 'asking price', spanOf(first));
  for (const match of [first, ...more]) line.take(spanOf(match));
};

/** Where the sale was seen: a remark of its own that names a kind of place, or "at the … fair". */
export const takeSource = (line: Line, put: Put, places: readonly string[] = []): void => {
  const known = new Set(places.map(place => fold(place).trim()));
  for (const piece of line.rest().matchAll(/[^\ue000,;|()[\]]+/g))
    for (const remark of piece[0].matchAll(/(?:(?! - )[\s\S])+/g)) {
      const trimmed = remark[0]
        .replace(/^[\s:*.!-]+|[\s:*.!-]+$/g, '')
        .replace(/^(?:at|from|via|auf|bei|in) (?:(?:an?|the) )?/, '');
      const start = piece.index + remark.index + remark[0].indexOf(trimmed);
      // "somebody at the fair gave": the place begins behind the preposition, and ends with its noun.
      const isPlace = separate.test(trimmed) && !/(?<!\p{L})(?:at|from|via) (?:the )?/u.test(trimmed);
      if (!trimmed || !(known.has(trimmed) || isPlace)) continue;
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

const onlyPlace = new RegExp(`^(?:${sourceNoun})$`, 'u');

/** True of a word of the owner's that is also what places are called, such as "fair". */
export const isPlaceNoun = (text: string): boolean => onlyPlace.test(fold(text).trim());

/**
 * A place with a name, such as "Penford fair", where it is a remark of its own and no car's name: before the
 * owner's words are looked for, one of which may be "fair".
 */
export const takeNamedFair = (line: Line, isName: (text: string) => boolean, put: Put): void => {
  for (const piece of line.rest().matchAll(/[^\ue000\ue001,;|()[\]]+/g)) {
    const text = line.text.slice(piece.index, piece.index + piece[0].length);
    const said = /^[\s:*.-]*(?<place>\p{Lu}\p{Ll}.*?)[\s:*.!-]*$/u.exec(text)?.groups?.place;
    if (said === undefined || !/ /.test(said) || !separate.test(fold(said)) || isName(said)) continue;
    const start = piece.index + text.indexOf(said);
    put('source', said, { start, end: start + said.length });
    line.take({ start, end: start + said.length });
    return;
  }
};

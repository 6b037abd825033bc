import { distance } from '../nearest.ts';
import { inAnyOrder, type KnownName, type Lexicon, wordsOf } from './lexicon.ts';
import { shortened } from './spellings.ts';
import type { Line, Span } from './text.ts';
import { bodyNouns, colourWords } from './vocabulary.ts';

export interface FoundName {
  name: KnownName;
  span: Span;
  /** Written as more than one of it. */
  isPlural: boolean;
}

interface Word extends Span {
  text: string;
  /** Nothing but room between it and the word before. */
  joins: boolean;
  /** Written with a point behind it: "Est." */
  isCut: boolean;
}

const wordsIn = (rest: string): Word[] => {
  let end = 0;
  return [...rest.matchAll(/[\p{L}\p{N}]+(?:'s(?!\p{L}))?/gu)].map(match => {
    const joins =
      /^[ './&-]*$/.test(rest.slice(end, match.index)) && !/ - /.test(rest.slice(end, match.index));
    end = match.index + match[0].length;
    const isCut = rest[end] === '.' && match[0].length >= 3;
    return { text: match[0].replace(/'s$/, ''), start: match.index, end, joins, isCut };
  });
};

const plurals = (joined: string): string[] => [joined.replace(/s$/, ''), joined.replace(/es$/, '')];
const digits = (text: string) => text.replace(/\D/g, '');

const mostAway = (length: number): number => (length < 8 ? 0 : length < 14 ? 1 : 2);

/** Every name of a known casting in a line, the surest first taken; none overlaps another. */
export const findNames = (line: Line, lexicon: Lexicon): FoundName[] => {
  const words = wordsIn(line.rest());
  let found: (FoundName & { away: number })[] = [];
  const windows: { window: Word[]; joined: string; span: Span }[] = [];
  for (let at = 0; at < words.length; at++)
    for (let length = 1; length <= lexicon.mostWords + 1; length++) {
      const window = words.slice(at, at + length);
      if (window.length < length || !window.slice(1).every(word => word.joins)) break;
      const span = { start: window[0]?.start ?? 0, end: window.at(-1)?.end ?? 0 };
      windows.push({ window, joined: window.map(word => word.text).join(''), span });
    }
  for (const { window, joined, span } of windows) {
    for (const name of lexicon.byJoined.get(joined) ?? [])
      found.push({ name, span, isPlural: false, away: 0 });
    for (const one of new Set(plurals(joined)))
      if (one !== joined)
        for (const name of lexicon.byJoined.get(one) ?? [])
          found.push({ name, span, isPlural: true, away: 1 });
    const reordered = window.length > 1 && lexicon.byWords.get(inAnyOrder(window.map(word => word.text)));
    if (reordered && reordered.joined !== joined)
      found.push({ name: reordered, span, isPlural: false, away: 1 });
  }
  if (found.length === 0)
    for (const { window, span } of windows.filter(one => one.window.some(word => word.isCut)))
      for (const name of lexicon.names)
        if (
          window.length === name.words.length &&
          window.every(({ text, isCut }, at) =>
            isCut ? name.words[at]?.startsWith(text) : name.words[at] === text,
          )
        )
          found.push({ name, span, isPlural: false, away: 1 });
  if (found.length === 0) found.push(...shortNames(windows, lexicon));
  if (found.length === 0)
    for (const { window, joined, span } of windows)
      for (const name of lexicon.names) {
        const most = mostAway(name.joined.length);
        if (
          most === 0 ||
          window.length !== name.words.length ||
          Math.abs(joined.length - name.joined.length) > most ||
          joined[0] !== name.joined[0] ||
          digits(joined) !== digits(name.joined) ||
          // A short word that differs is another name: "GS" is not "GT".
          window.some(({ text }, at) => text !== name.words[at] && text.length < 4)
        )
          continue;
        const away = distance(joined, name.joined);
        if (away <= most) found.push({ name, span, isPlural: false, away: 1 + away });
      }
  if (found.length === 0) found.push(...firstWords(words, line, lexicon));
  if (found.length === 0 && lexicon.names.length <= 5000) found.push(...loneWords(words, line, lexicon));
  found = found.filter(({ span }) => !isNumbered.test(line.text.slice(span.end)));
  found.sort((a, b) => a.away - b.away || b.span.end - b.span.start - (a.span.end - a.span.start));
  const taken: typeof found = [];
  for (const one of found) {
    const over = taken.filter(other => one.span.start < other.span.end && other.span.start < one.span.end);
    // Two names as near as each other at one place stay both, and are then told apart or left open.
    if (
      over.every(
        other =>
          other.away === one.away && other.span.start === one.span.start && other.span.end === one.span.end,
      )
    )
      taken.push(one);
  }
  return taken.map(({ name, span, isPlural }) => ({ name, span, isPlural }));
};

/** A number with which a name goes on, and is that of another car: "II", "Mk 3". A mark such as "VIII/X" is none. */
const isNumbered = /^ +(?:mk\.? ?\d|(?:mk\.? ?)?(?:ii|iii|iv|vi|vii|viii|ix)(?![\p{L}/]))/iu;

const shortForms = new Map<string, RegExp>();
/** True of "Limo" for "Limousine", and of "Vn" for "Van". */
const isShortFor = (short: string, word: string): boolean => {
  if (short.length >= word.length || short[0] !== word[0]) return false;
  if (short.length >= 4 && word.startsWith(short)) return true;
  if (shortForms.size >= 5000) shortForms.clear();
  const form = shortForms.get(word) ?? new RegExp(`^${shortened(word)}$`, 'u');
  shortForms.set(word, form);
  return short.length >= 2 && form.test(short);
};

/**
 * Names of several words of which one at least stands in full and the others are shortened; only where one
 * casting alone fits.
 */
const shortNames = (
  windows: { window: Word[]; span: Span }[],
  lexicon: Lexicon,
): (FoundName & { away: number })[] => {
  const fitting = windows.flatMap(({ window, span }) =>
    window.length < 2
      ? []
      : lexicon.names
          .filter(
            ({ words: own }) =>
              own.length === window.length &&
              window.some(({ text }, at) => own[at] === text && text.length >= 3) &&
              window.every(({ text }, at) => own[at] === text || isShortFor(text, own[at] ?? '')),
          )
          .map(name => ({ name, span, isPlural: false, away: 1 })),
  );
  return new Set(fitting.map(({ name }) => name.castingId)).size === 1 ? fitting : [];
};

/** A name by its first word alone, where no other casting has that word and no other body follows it. */
const firstWords = (words: Word[], line: Line, lexicon: Lexicon): (FoundName & { away: number })[] =>
  words.flatMap((word, at) => {
    const castings = lexicon.byFirstWord.get(word.text);
    const [only] = castings ?? [];
    if (only === undefined || castings?.size !== 1 || colourWords.has(word.text)) return [];
    const name = lexicon.names.find(one => one.castingId === only && one.words[0] === word.text);
    const next = words[at + 1];
    if (!name) return [];
    if (next?.joins) {
      const shown = line.text.slice(next.start, next.end);
      const isName =
        /^\p{Lu}\p{Ll}+$/u.test(shown) && !colourWords.has(next.text) && !isFeatureWord(next.text, lexicon);
      if (bodyNouns.has(next.text) || isName) return [];
    }
    return [{ name, span: { start: word.start, end: word.end }, isPlural: false, away: 5 }];
  });

/** A casting by a later word of its name, which no other name has and that is no kind of body: "heron". */
const loneWords = (words: Word[], line: Line, lexicon: Lexicon): (FoundName & { away: number })[] =>
  words.flatMap(({ text, start, end, joins }) => {
    // "Grey Heron" is a name of its own.
    if (joins && /\p{Lu}[\p{L}'’.-]* $/u.test(line.text.slice(0, start))) return [];
    if (text.length < 5 || colourWords.has(text) || bodyNouns.has(text) || isFeatureWord(text, lexicon))
      return [];
    const having = lexicon.names.filter(name => name.words.includes(text));
    if (having[0]?.words[0] === text) return [];
    const [name] = having;
    const isOne = name && !name.isRelease && new Set(having.map(one => one.castingId)).size === 1;
    return isOne ? [{ name, span: { start, end }, isPlural: false, away: 6 }] : [];
  });

const isFeatureWord = (word: string, lexicon: Lexicon): boolean =>
  [...lexicon.features.values()].some(texts =>
    [...texts.keys()].some(text => text.split(' ').includes(word)),
  );

/**
 * The one casting that the names mean, by series and maker where several have the name; null where that
 * is not to be told.
 */
export const castingOf = (names: FoundName[], line: Line, lexicon: Lexicon): number | null => {
  const ids = [...new Set(names.map(({ name }) => name.castingId))];
  if (ids.length <= 1) return ids[0] ?? null;
  const said = new Set(wordsOf(line.text));
  const fitting = (kind: 'maker' | 'series') =>
    ids.filter(id => {
      const range = wordsOf(lexicon.castings.get(id)?.[kind] ?? '');
      return range.length > 0 && range.every(word => said.has(word));
    });
  for (const kind of ['series', 'maker'] as const) {
    const [one, another] = fitting(kind);
    if (one !== undefined && another === undefined) return one;
  }
  return null;
};

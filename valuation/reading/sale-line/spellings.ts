import { inOtherLanguages } from '../plain-colour.ts';
import { escaped } from './text.ts';
import { numbers } from './vocabulary.ts';

const figures = new Map(Object.entries(numbers).map(([figure, word]) => [word, figure]));
const nothing = new Set(['no', 'without', 'none']);
const without = '(?:no|without|w/o|minus|ohne|sans|zonder|senza|sin)';

/**
 * Words of features in other languages, without accents, by the English one that references mostly have.
 * Common practice, no source.
 */
const abroad: Readonly<Record<string, string>> = {
  clear: 'klar|klare|klares|helder|heldere|clair|claire|claires|transparente?s?|chiaro|chiari|claros?',
  amber: 'bernstein|bernsteinfarben|amberkleurige?|ambre|ambra|ambar',
  tint: 'getont|getonte?s?|getint|getinte|teinte|teintees?|tintado|colorato',
  lamp: 'lampen|leuchten|ruckleuchten|rucklichter|feux|lichten|luci|faros',
  fin: 'flossen|heckflossen|vinnen|ailerons|pinne|aletas',
  door: 'turen|tur|deur|deuren|portes?|porta|porte|puertas?',
  single: 'einzelne|enkele|simple|singola',
  split: 'geteilte|gedeelde|separees?',
  surfboard: 'surfbretter|surfbrett|surfplanken|surfplank|planches? de surf',
  canopy: 'verdeck|huif|bache',
  stretcher: 'trage|brancard|barella|camilla',
  parachute: 'fallschirm|paracadute|paracaidas',
};

/** Texts that are one word elsewhere, or several. */
const phrasesAbroad: Readonly<Record<string, string>> = {
  'body colour':
    'wagenfarbe|karosseriefarbe|carrosseriekleur|couleur (?:de la )?carrosserie|colore carrozzeria',
};

/** A word's forms in other languages, of one of it or of several; '' where none are known. */
export const formsAbroad = (word: string): string => {
  const one = Object.hasOwn(abroad, word) ? word : word.replace(/s$/, '');
  return Object.hasOwn(abroad, one) ? (abroad[one] ?? '') : inOtherLanguages(word);
};

/**
 * Letters of a word as it may be shortened: the vowels behind the first letter may be left out, and one of
 * two letters alike.
 */
export const shortened = (word: string): string =>
  [...word]
    .map((letter, at) => {
      const isLeftOut =
        at > 0 &&
        (/[aeiou]/.test(letter) || letter === word[at - 1] || (letter === 'c' && word[at + 1] === 'k'));
      return isLeftOut ? `${escaped(letter)}?` : escaped(letter);
    })
    .join('');

/**
 * The ways to write one word of a feature: numbers as figures, "tint" as "tinted", one of it or more,
 * "louvred" for "louvres".
 */
const formsOf = (word: string, isLast: boolean, isShort: boolean): string => {
  const number = numbers[word] ?? (figures.has(word) ? word : undefined);
  if (number !== undefined) return `(?:${number}|${figures.get(number)})`;
  if (nothing.has(word)) return without;
  const stem = isLast && word.length > 2 ? word.replace(/(?<=[^s])s$/, '') : word;
  const letters = isShort && stem.length >= 3 ? shortened(stem) : eitherSide(stem);
  const end =
    word === 'tint' ? '(?:ed)?' : isLast && word.length > 2 ? (stem.endsWith('e') ? '[sd]?' : 's?') : '';
  const others = formsAbroad(word);
  const tail = word === 'lamp' || word === 'lamps' ? '(?:tail[ -]?)?' : '';
  const own = `${tail}${letters}${end}${stem === 'louvre' || stem === 'centre' ? `|${stem.slice(0, -2)}ers?` : ''}`;
  return others === '' && !own.includes('|') ? own : `(?:${[own, others].filter(Boolean).join('|')})`;
};

/** A word as it is spelt on either side of the ocean. */
const eitherSide = (word: string): string =>
  escaped(word).replace('colour', 'colou?r').replace('grey', 'gr[ea]y');

export interface Spelling {
  /** The words may be shortened, as in "sngl dr". */
  isShort?: boolean;
  /** A noun stands beside it, which tells that it is meant: "clr glass". */
  isBeside?: boolean;
  /** What may stand between its words: "single rear door". */
  between?: string;
}

/** A pattern of the ways to write a feature's text, which is folded; room and hyphens are alike. */
export const spellingOf = (
  text: string,
  { isShort = false, isBeside = false, between }: Spelling = {},
): string => {
  const parts = text.split(/[ -]+/).filter(Boolean);
  // One short word alone is too little to be told when it is shortened.
  const mayShorten = isShort && (parts.length > 1 || text.length >= (isBeside ? 4 : 7));
  const inside = between === undefined ? '[ -]' : `[ -](?:(?:${between})[ -])?`;
  const forms = parts.map((word, at) => formsOf(word, at === parts.length - 1, mayShorten)).join(inside);
  // A long word may be broken off: "champ" beside "interior".
  const begun =
    isBeside && parts.length === 1 && text.length >= 8 ? `|${escaped(text.slice(0, 5))}\\p{L}*` : '';
  const [first = '', second = ''] = parts;
  const turned = parts.length === 2 ? [second, first].map(formsAbroad) : [];
  const reversed = turned.length > 0 && turned.every(Boolean) ? `|(?:${turned[0]})[ -](?:${turned[1]})` : '';
  const phrase = Object.hasOwn(phrasesAbroad, text) ? `|${phrasesAbroad[text]}` : '';
  return begun || reversed || phrase ? `(?:${forms}${begun}${reversed}${phrase})` : forms;
};

import { escaped } from './text.ts';
import { numbers } from './vocabulary.ts';

const figures = new Map(Object.entries(numbers).map(([figure, word]) => [word, figure]));
const nothing = new Set(['no', 'without', 'none']);
const without = '(?:no|without|w/o|minus|ohne|sans|zonder|senza|sin)';

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
  const letters = isShort && stem.length >= 3 ? shortened(stem) : escaped(stem);
  const end =
    word === 'tint' ? '(?:ed)?' : isLast && word.length > 2 ? (stem.endsWith('e') ? '[sd]?' : 's?') : '';
  return `${letters}${end}`;
};

export interface Spelling {
  /** The words may be shortened, as in "sngl dr". */
  isShort?: boolean;
  /** What may stand between its words: "single rear door". */
  between?: string;
}

/** A pattern of the ways to write a feature's text, which is folded; room and hyphens are alike. */
export const spellingOf = (text: string, { isShort = false, between }: Spelling = {}): string => {
  const parts = text.split(/[ -]+/).filter(Boolean);
  // One short word alone is too little to be told when it is shortened.
  const mayShorten = isShort && (parts.length > 1 || text.length >= 7);
  const inside = between === undefined ? '[ -]' : `[ -](?:(?:${between})[ -])?`;
  return parts.map((word, at) => formsOf(word, at === parts.length - 1, mayShorten)).join(inside);
};

/**
 * A name as names are compared: without case, accents, punctuation, plurals, and the words that
 * every name may have.
 */
export interface NameKey {
  /** In the order in which they were written. */
  words: string[];
  /** All letters and figures, without what is between them. */
  joined: string;
  /**
   * Words that tell castings apart by a single sign: numbers, Roman numerals, single letters; sorted, and
   * never taken for mistyped.
   */
  marks: string;
}

const idle = new Set(['the', 'and', 'a', 'an']);
const roman = /^(?=[ivx])x{0,3}(?:ix|iv|v?i{0,3})$/;

const singular = (word: string): string => {
  if (word.length < 4 || !word.endsWith('s') || word.endsWith('ss')) return word;
  return /(?:s|x|z|ch|sh)es$/.test(word) ? word.slice(0, -2) : word.slice(0, -1);
};

/** The words of a text as names are compared by them. */
export const nameWords = (text: string): string[] => {
  const all =
    text
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .replace(/['’`]/g, '')
      .match(/\p{L}+|\p{N}+/gu) ?? [];
  const telling = all.filter(word => !idle.has(word));
  return (telling.length > 0 ? telling : all).map(singular);
};

/** Prepares a name for being compared. */
export const nameKey = (text: string): NameKey => {
  const words = nameWords(text);
  const marks = words.filter(word => word.length === 1 || /\p{N}/u.test(word) || roman.test(word));
  return { words, joined: words.join(''), marks: marks.sort().join(' ') };
};

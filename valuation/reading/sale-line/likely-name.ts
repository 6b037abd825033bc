import { isPraise } from './praise.ts';

const mostWords = 6;

/**
 * Of what was not understood in a line, the words that are likeliest to name the car: the longest piece that
 * begins with a capital letter somewhere, from there on; else the longest piece. Praise before it is no part
 * of it. Null where no piece has another word of three letters. The order of the pieces does not matter.
 */
export const likelyName = (unread: readonly string[]): string | null => {
  const named = unread
    .map(text => text.split(/\s+/))
    .filter(words => words.some(word => /\p{L}{3,}/u.test(word) && !isPraise(word)))
    .map(words => words.slice(words.findIndex(word => !isPraise(word))))
    .map(words => {
      const from = words.findIndex(word => /^\p{Lu}/u.test(word));
      return {
        isCapital: from >= 0,
        name: words.slice(Math.max(0, from), Math.max(0, from) + mostWords).join(' '),
      };
    })
    .sort(
      (a, b) =>
        Number(b.isCapital) - Number(a.isCapital) ||
        b.name.length - a.name.length ||
        (a.name < b.name ? -1 : 1),
    );
  return named[0]?.name ?? null;
};

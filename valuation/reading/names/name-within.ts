import { isPraise } from '../sale-line/praise.ts';

const word = /[\p{L}\p{N}](?:[\p{L}\p{M}\p{N}'’.-]*[\p{L}\p{M}\p{N}])?/gu;
const mostWords = 8;

/**
 * The names that stand in a text as whole words, as they are written there, without those that are a part of
 * a longer one. `isName` tells of a piece of the text whether it is one.
 */
export const namesWithin = (
  text: string,
  isName: (piece: string) => boolean,
): { name: string; start: number; end: number }[] => {
  const words = [...text.matchAll(word)].map(({ 0: { length }, index }) => ({ index, end: index + length }));
  const found: { name: string; start: number; end: number }[] = [];
  for (let count = Math.min(mostWords, words.length); count > 0; count--)
    for (let first = 0; first + count <= words.length; first++) {
      const [start, end] = [words[first]!.index, words[first + count - 1]!.end];
      const name = text.slice(start, end);
      if (found.every(longer => end <= longer.start || start >= longer.end) && isName(name))
        found.push({ name, start, end });
    }
  return found;
};

/** The words beside a name that may belong to it: all but praise. */
const telling = (text: string): string[] => (text.match(word) ?? []).filter(one => !isPraise(one));

/**
 * The one name that stands in a text as whole words, as it is written there; null where there is none, where
 * two stand in it, or where the name may be longer than what is found: a name of one word must stand alone
 * but for praise, and beside any other no capital or figure stands that may go on with it.
 */
export const nameWithin = (text: string, isName: (piece: string) => boolean): string | null => {
  const found = namesWithin(text, isName);
  const [one] = found;
  if (!one || found.some(({ name }) => name.toLowerCase() !== one.name.toLowerCase())) return null;
  const [before, after] = [text.slice(0, one.start), text.slice(one.end)];
  if (!/[\s-]/.test(one.name)) return telling(`${before} ${after}`).length > 0 ? null : one.name;
  const beside = [/(\S+)\s+$/u.exec(before)?.[1] ?? '', /^\s+(\S+)/u.exec(after)?.[1] ?? ''];
  return beside.flatMap(telling).some(next => /^(?:\p{Lu}|.*\p{N})/u.test(next)) ? null : one.name;
};

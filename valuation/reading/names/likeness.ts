import { distance } from '../nearest.ts';
import type { NameKey } from './name-key.ts';

/** The words of the first that the second lacks, each as often as it does. */
const without = (words: string[], others: string[]): string[] => {
  const left = [...others];
  return words.filter(word => {
    const at = left.indexOf(word);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
};

/** So many letters of a stretch of this length may be mistyped. Chosen on invented names; no source. */
export const mostMistyped = (length: number): number =>
  length < 5 ? 0 : length < 9 ? 1 : length < 15 ? 2 : 3;

/**
 * How many letters two spellings of one name differ by: 0 where they are the same but for case, accents,
 * spaces, punctuation, plural or the order of words; null where they are too far apart to be one name. What
 * both have is set aside first, and what remains may differ by some letters, relative to its length. The same
 * whichever comes first.
 */
export const spellingsApart = (a: NameKey, b: NameKey): number | null => {
  if (a.joined === '' || b.joined === '') return null;
  if (a.joined === b.joined) return 0;
  if (a.marks !== b.marks) return null;
  const one = without(a.words, b.words).join('');
  const other = without(b.words, a.words).join('');
  if (one === other) return 0;
  const most = mostMistyped(Math.min(one.length, other.length));
  if (most === 0 || Math.abs(one.length - other.length) > most) return null;
  const away = distance(one, other);
  return away <= most ? away : null;
};

/**
 * How near two names are, from 0 to 1, to put the likeliest of a list first; the same whichever comes first.
 */
export const nearness = (a: NameKey, b: NameKey): number => {
  const longest = Math.max(a.joined.length, b.joined.length);
  if (longest === 0) return 0;
  const apart = distance(without(a.words, b.words).join(''), without(b.words, a.words).join(''));
  return 1 - Math.min(apart, distance(a.joined, b.joined)) / longest;
};

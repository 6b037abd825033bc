import type { Grade } from '../valuation/words.ts';
import type { HalfGrade } from './schema.ts';

/** C7.5 as it is kept: doubled, so that it stays whole. */
export const gradeToHalf = <T extends Grade | null>(
  grade: T,
): T extends null ? HalfGrade | null : HalfGrade =>
  (grade === null ? null : grade * 2) as T extends null ? HalfGrade | null : HalfGrade;

/** A kept, doubled grade as the owner knows it. */
export const halfToGrade = <T extends HalfGrade | null>(half: T): T extends null ? Grade | null : Grade =>
  (half === null ? null : half / 2) as T extends null ? Grade | null : Grade;

/**
 * A JSON array of words; those that `allowed` does not know are left out, and damaged text is an empty list.
 */
export const readWords = <T extends string>(json: string, allowed: readonly T[]): T[] => {
  const value = readJson(json);
  return Array.isArray(value) ? value.filter((word): word is T => allowed.includes(word)) : [];
};

/** A JSON object of texts, without any entry that is not text; damaged text is an empty object. */
export const readTexts = (json: string): Record<string, string> => {
  const value = readJson(json);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return {};
  return Object.fromEntries(
    Object.entries(value).filter(
      (entry): entry is [string, string] => typeof entry[1] === 'string' && entry[0] !== '__proto__',
    ),
  );
};

/** Parsed JSON, or null where the text is none. */
export const readJson = (json: string): unknown => {
  try {
    return JSON.parse(json);
  } catch {
    return null;
  }
};

/**
 * The ids to read by; undefined where there are so many that reading all rows is faster than reading these.
 */
export const unlessMany = (ids: number[]): number[] | undefined => (ids.length > 2000 ? undefined : ids);

/**
 * What `read` finds by these ids, read in pieces that fit SQLite's limit on bound values; without ids, what
 * it finds of all rows.
 */
export const inChunks = async <T>(
  ids: readonly number[] | undefined,
  read: (ids?: number[]) => Promise<readonly T[]>,
): Promise<T[]> => {
  if (!ids) return [...(await read())];
  const found: T[] = [];
  for (const piece of pieces(ids)) for (const one of await read(piece)) found.push(one);
  return found;
};

/** Cuts a list into pieces that fit SQLite's limit on bound values. */
export const pieces = <T>(list: readonly T[], size = 5000): T[][] =>
  Array.from({ length: Math.ceil(list.length / size) }, (_, i) => list.slice(i * size, (i + 1) * size));

/** Key that sorts numbers inside text by their value: lot-2 before lot-10. */
export const naturalKey = (text: string): string =>
  text.toLowerCase().replace(/\d+/g, digits => digits.padStart(12, '0'));

/** Gives the same text for all that say the same, so that many rows take little room. */
export const heldOnce = () => {
  const texts = new Map<string, string>();
  return <Text extends string>(text: Text): Text => {
    const known = texts.get(text);
    if (known !== undefined) return known as Text;
    texts.set(text, text);
    return text;
  };
};

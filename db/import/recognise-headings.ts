import { plainWord } from '../../valuation/reading/words.ts';
import { ourColumns } from './columns.ts';
import { isOfOtherState } from './heading-words.ts';
import type { ImportKind } from './types.ts';

/**
 * Spaces, points and hyphens apart, which people set as they like: "Taillights",
 * "Tail-lights", "tail lights".
 */
const compact = (word: string): string => word.replace(/[^\p{L}\p{N}#/?]/gu, '') || word;

/** "Cond. (box)" is of the box, as "Box cond." is. */
const ofBox = /^(.+?) *\((box|card|blister|packaging|package)\)$/;

const sameWord = (heading: string): string =>
  plainWord(heading)
    .replace(ofBox, '$2 $1')
    .replace(/['’]/g, ' ')
    .replace(/ *(?:\([^()]*\)|\/ ?\d{1,3})$/, '')
    .replace(/ *[([]?y(?:\/| or )?n[)\]]?\??$/, '')
    .replace(/[:*]+$/, '')
    .replace(/(?<=\p{L}{3}) 1$/u, '')
    .trim();

export interface RecognisedHeading {
  ours: string;
  how: 'same name' | 'recognised';
}

/** Each heading of a kind of import with what it may mean. */
const meaningsOf = (as: ImportKind): ReadonlyMap<string, RecognisedHeading[]> => {
  const meanings = new Map<string, RecognisedHeading[]>();
  const add = (word: string, meaning: RecognisedHeading) => {
    const known = meanings.get(compact(word)) ?? [];
    if (!known.some(({ ours }) => ours === meaning.ours)) meanings.set(compact(word), [...known, meaning]);
  };
  for (const { name, known } of ourColumns[as])
    for (const word of new Set(known)) add(word, { ours: name, how: 'recognised' });
  for (const { name } of ourColumns[as])
    meanings.set(compact(plainWord(name)), [{ ours: name, how: 'same name' }]);
  return meanings;
};
const meanings: Record<ImportKind, ReadonlyMap<string, RecognisedHeading[]>> = {
  lot: meaningsOf('lot'),
  reference: meaningsOf('reference'),
  sales: meaningsOf('sales'),
};

/**
 * Our columns that a heading may mean: the one of its own name alone, or else those that are
 * commonly so headed.
 */
export const recogniseHeadings = (as: ImportKind, heading: string): RecognisedHeading[] =>
  isOfOtherState(heading) ? [] : (meanings[as].get(compact(sameWord(heading))) ?? []);

/**
 * Our column for a heading: of the same name, or the first that is commonly so headed; null
 * where it is neither.
 */
export const recogniseHeading = (as: ImportKind, heading: string): RecognisedHeading | null =>
  recogniseHeadings(as, heading)[0] ?? null;

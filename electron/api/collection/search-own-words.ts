import type { Kysely } from 'kysely';
import { carsOf } from '../../../db/records/cars/cars.ts';
import { listWords } from '../../../db/records/own-words/words.ts';
import type { Schema } from '../../../db/schema.ts';
import { type SearchMatch, search, searchCarIds } from '../../../db/search/search.ts';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { plainWord } from '../../../valuation/reading/words.ts';
import { finishStates, grades } from '../../../valuation/words.ts';

/** The owner's words that stand in a query, the longest first, each with what else was asked. */
const wordsIn = (query: string, words: readonly OwnWord[]): (OwnWord & { rest: string })[] => {
  const padded = ` ${plainWord(query)} `;
  return words
    .filter(({ text, meaning }) => text !== '*' && meaning !== '' && padded.includes(` ${plainWord(text)} `))
    .sort((a, b) => b.text.length - a.text.length)
    .map(word => ({ ...word, rest: padded.replace(` ${plainWord(word.text)} `, ' ').trim() }));
};

const mostWords = 5;

/** Cars of a grade or a finish, which no text of theirs says. */
const carsThatAre = async (
  db: Kysely<Schema>,
  { field, meaning, rest }: OwnWord & { rest: string },
  limit: number,
): Promise<SearchMatch[]> => {
  const grade = grades.find(one => String(one) === meaning);
  const finish = finishStates.find(one => one === meaning);
  const cars =
    field === 'grade' && grade !== undefined
      ? await carsOf(db, { grade })
      : finish && field !== 'grade'
        ? await carsOf(db, { finishState: finish })
        : [];
  const among = rest === '' ? null : new Set(await searchCarIds(db, rest));
  return cars
    .filter(id => among === null || among.has(id))
    .slice(0, limit)
    .map(id => ({ kind: 'car' as const, id }));
};

/**
 * As `search`, and what the owner's words in the query mean, after what is found by the words
 * themselves; each once.
 */
export const searchWithOwnWords = async (
  db: Kysely<Schema>,
  text: string,
  limit: number,
): Promise<SearchMatch[]> => {
  const matches = await search(db, text, limit);
  for (const word of wordsIn(text, await listWords(db)).slice(0, mostWords))
    matches.push(
      ...(word.field === 'grade' || word.field === 'finish_state'
        ? await carsThatAre(db, word, limit)
        : await search(db, `${word.rest} ${word.meaning}`, limit)),
    );
  const seen = new Set<string>();
  return matches.filter(({ kind, id }) => {
    const key = `${kind} ${id}`;
    return seen.has(key) ? false : seen.add(key);
  });
};

import type { Transaction } from 'kysely';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { plain } from '../../reference/plain.ts';
import type { Schema } from '../../schema.ts';
import { plainHeading } from '../unread.ts';
import { type Settled, settleWords, takeBackWords } from './settle-words.ts';
import { listWords, removeWords, saveWords, updateWord } from './words.ts';

/** A word as it is said: one with an `id` takes the place of that one. */
export type SaidWord = OwnWord & { id?: number | undefined };

const both = (one: Settled, other: Settled): Settled => ({
  carIds: [...new Set([...one.carIds, ...other.carIds])],
  saleIds: [...new Set([...one.saleIds, ...other.saleIds])],
  toShare: [...new Set([...one.toShare, ...other.toShare])],
});

const isSameWord = (one: OwnWord, other: OwnWord): boolean =>
  plainHeading(one.column) === plainHeading(other.column) &&
  plain(one.text) === plain(other.text) &&
  one.field === other.field;

/** The words that can settle what other ones had: of the same texts, or scales. */
const aboutSame = (words: readonly OwnWord[], gone: readonly OwnWord[]): OwnWord[] => {
  const texts = new Set(gone.map(({ text }) => plain(text)));
  const hasScale = gone.some(({ field }) => field === 'grade_scale');
  return words.filter(word => word.field === 'grade_scale' || hasScale || texts.has(plain(word.text)));
};

/**
 * Saves words and applies them: to texts that waited for them, and, where a word had another meaning before,
 * to all rows that were read by it. `at` is the instant of the change.
 */
export const sayWords = async (
  trx: Transaction<Schema>,
  words: readonly SaidWord[],
  at: string,
): Promise<Settled> => {
  const known = await listWords(trx);
  const changed = words.flatMap(({ id, ...word }) =>
    known.filter(
      one =>
        (id === undefined ? isSameWord(one, word) : one.id === id) &&
        !(isSameWord(one, word) && one.meaning === word.meaning),
    ),
  );
  const back = await takeBackWords(trx, changed, at);
  for (const { id, ...word } of words)
    if (id !== undefined) await updateWord(trx, id, word);
    else await saveWords(trx, [word], at);
  const given = words.map(({ id: _, ...word }) => word);
  const again = changed.length === 0 ? [] : aboutSame(await listWords(trx), changed);
  return both(back, await settleWords(trx, [...again, ...given], at));
};

/**
 * Removes words; with `rows`, the texts that they had settled wait again, or are read by other words that are
 * about them.
 */
export const unsayWords = async (
  trx: Transaction<Schema>,
  ids: number[],
  { rows }: { rows: boolean },
  at: string,
): Promise<Settled> => {
  const gone = (await listWords(trx)).filter(({ id }) => ids.includes(id));
  await removeWords(trx, ids);
  if (!rows) return { carIds: [], saleIds: [], toShare: [] };
  const back = await takeBackWords(trx, gone, at);
  return both(back, await settleWords(trx, aboutSame(await listWords(trx), gone), at));
};

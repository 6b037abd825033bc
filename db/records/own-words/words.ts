import type { Kysely, Transaction } from 'kysely';
import type { OwnWord } from '../../../valuation/reading/sale-line/lexicon.ts';
import { pieces } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** What a text of the owner's means, as the collection keeps it. */
export interface WordRecord extends OwnWord {
  id: number;
  /** ISO instant. */
  addedAt: string;
}

/** The owner's words, in the order of their columns and texts. */
export const listWords = async (db: Kysely<Schema>): Promise<WordRecord[]> =>
  db
    .selectFrom('word')
    .select(['id', 'column_name as column', 'text', 'field', 'meaning', 'added_at as addedAt'])
    .orderBy('column_name')
    .orderBy('text')
    .orderBy('id')
    .execute();

/** Adds words; one that is there already for the same column, text and field takes the new meaning. */
export const saveWords = async (
  trx: Transaction<Schema>,
  words: readonly OwnWord[],
  at: string,
): Promise<void> => {
  for (const { column, text, field, meaning } of words)
    await trx
      .insertInto('word')
      .values({ column_name: column, text, field, meaning, added_at: at })
      .onConflict(conflict => conflict.columns(['column_name', 'text', 'field']).doUpdateSet({ meaning }))
      .execute();
};

/** Changes a word. Throws where it is not there. */
export const updateWord = async (
  trx: Transaction<Schema>,
  id: number,
  { column, text, field, meaning }: OwnWord,
): Promise<void> => {
  await trx
    .deleteFrom('word')
    .where('column_name', '=', column)
    .where('text', '=', text)
    .where('field', '=', field)
    .where('id', '!=', id)
    .execute();
  await trx
    .updateTable('word')
    .set({ column_name: column, text, field, meaning })
    .where('id', '=', id)
    .executeTakeFirstOrThrow();
};

/** Removes words; what they once settled stays as it is. */
export const removeWords = async (trx: Transaction<Schema>, ids: number[]): Promise<void> => {
  for (const piece of pieces(ids)) await trx.deleteFrom('word').where('id', 'in', piece).execute();
};

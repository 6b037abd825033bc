import { type Kysely, sql } from 'kysely';
import { proposeMeaning } from '../../../valuation/reading/propose.ts';
import { plain } from '../../reference/plain.ts';
import type { Schema } from '../../schema.ts';
import { plainHeading, readUnread, type UnreadText } from '../unread.ts';

/** A text that waits for its meaning, with all cars and sale records in which it stands. */
export interface WaitingWord {
  column: string;
  text: string;
  /** The field that it is most likely about; '' where nobody can tell. */
  field: string;
  /** A meaning where one is near, to be confirmed; '' where people mean the text differently. */
  meaning: string;
  carIds: number[];
  saleIds: number[];
}

const distinctColours = async (db: Kysely<Schema>): Promise<string[]> =>
  (await db.selectFrom('variation').select('colour').distinct().where('colour', '!=', '').execute()).map(
    row => row.colour,
  );

/** Written out, as SQLite uses the index of such rows only where it sees that they are meant. */
const isWaiting = sql<boolean>`unread != '[]'`;

/** The distinct texts that were not understood, the most frequent first. */
export const waitingWords = async (db: Kysely<Schema>): Promise<WaitingWord[]> => {
  const waiting = new Map<string, WaitingWord>();
  const colours = await distinctColours(db);
  const see = (entry: UnreadText, where: 'carIds' | 'saleIds', id: number) => {
    const key = `${plainHeading(entry.column)}\u0001${plain(entry.text)}`;
    let word = waiting.get(key);
    if (!word) {
      const proposed = proposeMeaning(entry.field, entry.text, colours);
      word = { column: entry.column, text: entry.text, ...proposed, carIds: [], saleIds: [] };
      waiting.set(key, word);
    }
    if (word[where].at(-1) !== id) word[where].push(id);
  };
  for (const table of ['car', 'sale_record'] as const)
    for (const { id, unread } of await db
      .selectFrom(table)
      .select(['id', 'unread'])
      .where(isWaiting)
      .orderBy('id')
      .execute())
      for (const entry of readUnread(unread))
        if (!entry.holds) see(entry, table === 'car' ? 'carIds' : 'saleIds', id);
  const count = ({ carIds, saleIds }: WaitingWord) => carIds.length + saleIds.length;
  return [...waiting.values()].sort((a, b) => count(b) - count(a));
};

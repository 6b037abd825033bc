import { listWords, type WordRecord } from '../../../db/records/own-words/words.ts';
import { type DataTable, type ListColumn, listTable, textCell } from '../../../reports/tables/data-table.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';

const columns: readonly ListColumn<WordRecord>[] = (['column', 'text', 'field', 'meaning'] as const).map(
  name => ({
    name,
    width: name === 'text' ? 30 : 18,
    value: word => textCell(word[name]),
  }),
);

/** The owner's words in the form in which imports take them. */
export const wordsTable = async (session: Session): Promise<DataTable> =>
  listTable('Words', columns, await listWords(openOf(session).read.db));

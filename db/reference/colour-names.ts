import type { Kysely } from 'kysely';
import { plainWord } from '../../valuation/reading/words.ts';
import type { Schema } from '../schema.ts';

/** The colours of the reference's variations, as they are spelt there. */
export const listColours = async (db: Kysely<Schema>): Promise<string[]> => {
  const rows = await db
    .selectFrom('variation')
    .select('colour')
    .distinct()
    .where('colour', '!=', '')
    .execute();
  return rows.map(({ colour }) => colour);
};

/** The plain words of the reference's colours, but for those that name a casting or a release as well. */
export const coloursOnly = async (db: Kysely<Schema>): Promise<ReadonlySet<string>> => {
  const colours = new Set((await listColours(db)).map(plainWord));
  if (colours.size === 0) return colours;
  for (const table of ['casting', 'release'] as const)
    for (const { name } of await db.selectFrom(table).select('name').distinct().execute())
      colours.delete(plainWord(name));
  return colours;
};

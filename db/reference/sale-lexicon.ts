import type { Kysely } from 'kysely';
import { type Lexicon, makeLexicon, type OwnWord } from '../../valuation/reading/sale-line/lexicon.ts';
import { variationFeatures } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';
import { listCastings, listReleases, listVariations } from './reference.ts';
import { settledNames } from './settled-names.ts';

/**
 * The words of the reference and of the owner, as lines of sales are read with them; `more` come
 * before the saved ones.
 */
export const loadSaleLexicon = async (db: Kysely<Schema>, more: OwnWord[] = []): Promise<Lexicon> => {
  const castings = new Map(
    (await listCastings(db)).map(({ id, name, maker, series }) => [
      id,
      {
        id,
        name,
        maker,
        series,
        releases: [] as { name: string; year: number | null }[],
        spellings: [] as string[],
        features: {} as Record<string, string[]>,
      },
    ]),
  );
  for (const { castingId, name, year } of await listReleases(db))
    castings.get(castingId)?.releases.push({ name, year });
  for (const { text, castingId } of (await settledNames(db)).values())
    if (castingId !== null) castings.get(castingId)?.spellings.push(text);
  for (const { castingId, features } of await listVariations(db)) {
    const known = castings.get(castingId)?.features;
    if (!known) continue;
    for (const feature of variationFeatures) {
      const text = features[feature];
      known[feature] ??= [];
      if (text && !known[feature].includes(text)) known[feature].push(text);
    }
  }
  const saved = await db
    .selectFrom('word')
    .select(['column_name as column', 'text', 'field', 'meaning'])
    .where('field', '!=', 'grade_scale')
    .orderBy('id')
    .execute();
  return makeLexicon([...castings.values()], [...more, ...saved]);
};

import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import type { Rarity } from '../../valuation/words.ts';
import { variationFeatures } from '../../valuation/words.ts';
import { preparedInsert } from '../prepared-insert.ts';
import type { Schema } from '../schema.ts';
import { plain } from './plain.ts';
import { type FeatureTexts, listCastings, listReleases } from './reference.ts';
import { castingToRow, variationToRow } from './reference-write.ts';

const key = (...parts: (string | number | null)[]): string => {
  let whole = '';
  for (const part of parts) whole += `${typeof part === 'string' ? plain(part) : part}\u0001`;
  return whole;
};

const mostListed = 200_000;

interface NewVariation {
  release: string;
  year: number | null;
  features: Partial<FeatureTexts>;
  rarity: Rarity | null;
}

/**
 * Adds thousands of castings and variations inside an action: makers, series, castings and releases each
 * once, by their names.
 */
export const referenceInserter = async (sqlite: Database, db: Kysely<Schema>) => {
  const ids = new Map<string, number>();
  /** Features written already, so that each is tried once; beyond a number of them the database tells. */
  const listed = new Set<string>();
  for (const row of await db.selectFrom('maker').select(['id', 'name']).execute())
    ids.set(key('maker', row.name), row.id);
  for (const row of await db.selectFrom('series').select(['id', 'maker_id', 'name']).execute())
    ids.set(key('series', row.maker_id, row.name), row.id);
  for (const row of await listCastings(db)) ids.set(key('casting', row.seriesId, row.name), row.id);
  for (const row of await listReleases(db))
    ids.set(key('release', row.castingId, row.name, row.year), row.id);

  const inserts = {
    maker: preparedInsert(sqlite, 'maker'),
    series: preparedInsert(sqlite, 'series'),
    casting: preparedInsert(sqlite, 'casting'),
    release: preparedInsert(sqlite, 'release'),
    variation: preparedInsert(sqlite, 'variation'),
  };
  const insertFeature = sqlite.prepare(
    'INSERT OR IGNORE INTO casting_feature (casting_id, feature, value) VALUES (?, ?, ?)',
  );
  const once = (name: string, insert: () => number): number => {
    const found = ids.get(name);
    if (found !== undefined) return found;
    const id = insert();
    ids.set(name, id);
    return id;
  };
  const castingOnce = (maker: string, series: string, name: string, year: number | null): number => {
    const makerId = once(key('maker', maker), () => inserts.maker({ name: maker, country: null }));
    const seriesId = once(key('series', makerId, series), () =>
      inserts.series({ maker_id: makerId, name: series, first_year: null, last_year: null }),
    );
    return once(key('casting', seriesId, name), () =>
      inserts.casting(
        castingToRow(seriesId, {
          name,
          bodyType: '',
          firstYear: year,
          lengthMm: null,
          materials: '',
          markings: '',
          notes: '',
        }),
      ),
    );
  };
  const homes = new Map<string, number>();
  const casting = (maker: string, series: string, name: string, year: number | null): number => {
    const written = `${maker}\u0001${series}\u0001${name}`;
    const before = homes.get(written);
    if (before !== undefined) return before;
    const id = castingOnce(maker, series, name, year);
    homes.set(written, id);
    return id;
  };
  const variation = (castingId: number, { release, year, features, rarity }: NewVariation): number => {
    const releaseId = once(key('release', castingId, release, year), () =>
      inserts.release({ casting_id: castingId, name: release, year }),
    );
    for (const feature of variationFeatures) {
      const value = features[feature];
      if (!value) continue;
      const entry = `${castingId} ${feature} ${value}`;
      if (listed.has(entry)) continue;
      if (listed.size < mostListed) listed.add(entry);
      insertFeature.run(castingId, feature, value);
    }
    const row = variationToRow(releaseId, { features, rarity, factorySpecification: '' });
    return inserts.variation(row);
  };
  const addNote = sqlite.prepare(
    "UPDATE variation SET notes = iif(notes = '', @text, notes || char(10) || @text) WHERE id = @id",
  );
  /** Adds to the notes of a variation. */
  const note = (id: number, text: string): void => {
    addNote.run({ id, text });
  };
  return { casting, variation, note };
};

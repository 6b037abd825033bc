import type { Kysely, Transaction } from 'kysely';
import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';
import type { Collection } from '../../collection.ts';
import { featureColumns, plain } from '../../reference/match.ts';
import { type FeatureTexts, listCastings, listReleases, listVariations } from '../../reference/reference.ts';
import type { Schema } from '../../schema.ts';
import { parseBasePaint, parseRarity, parseYear } from '../cells/parse-words.ts';
import { BadCell, type Judge, take, takeText, type Values } from './judge.ts';
import { remembered } from './remembered.ts';

const key = (...parts: (string | number | null)[]): string => {
  let whole = '';
  for (const part of parts) whole += `${typeof part === 'string' ? plain(part) : part}\u0001`;
  return whole;
};

const readBasePaint = remembered(parseBasePaint);
const readRarity = remembered(parseRarity);
const readYear = remembered(parseYear);

const featuresOf = (values: Values): FeatureTexts => {
  const features = {} as FeatureTexts;
  for (const feature of variationFeatures) features[feature] = takeText(values, featureColumns[feature]);
  features.basePaint = take(values, 'base_paint', readBasePaint) ?? '';
  return features;
};

const mostListed = 200_000;

/** Where things go whose maker or series nobody has given yet. */
export const unknownMaker = 'Unknown maker';

/** Where a casting goes whose series nobody has given yet. */
export const unsortedSeries = 'Unsorted';

/** Writes parts of the reference with prepared statements, each once, and remembers their ids. */
export const referenceWriter = async (collection: Collection, db: Kysely<Schema> | Transaction<Schema>) => {
  const ids = new Map<string, number>();
  /** Features written already, so that each is tried once; beyond a number of them the database tells. */
  const listed = new Set<string>();
  const castings = await listCastings(db);
  for (const row of await db.selectFrom('maker').select(['id', 'name']).execute())
    ids.set(key('maker', row.name), row.id);
  for (const row of await db.selectFrom('series').select(['id', 'maker_id', 'name']).execute())
    ids.set(key('series', row.maker_id, row.name), row.id);
  for (const row of await db.selectFrom('casting').select(['id', 'series_id', 'name']).execute())
    ids.set(key('casting', row.series_id, row.name), row.id);
  for (const row of await listReleases(db))
    ids.set(key('release', row.castingId, row.name, row.year), row.id);

  const { sqlite } = collection;
  const statements = {
    maker: sqlite.prepare('INSERT INTO maker (name) VALUES (?)'),
    series: sqlite.prepare('INSERT INTO series (maker_id, name) VALUES (?, ?)'),
    casting: sqlite.prepare('INSERT INTO casting (series_id, name, first_year) VALUES (?, ?, ?)'),
    release: sqlite.prepare('INSERT INTO release (casting_id, name, year) VALUES (?, ?, ?)'),
    feature: sqlite.prepare(
      'INSERT OR IGNORE INTO casting_feature (casting_id, feature, value) VALUES (?, ?, ?)',
    ),
    variation: sqlite.prepare(
      `INSERT INTO variation (release_id, ${variationFeatures.map(feature => featureColumns[feature]).join(', ')}, rarity)
       VALUES (?, ${variationFeatures.map(() => '?').join(', ')}, ?)`,
    ),
  };
  const once = (name: string, insert: () => { lastInsertRowid: number | bigint }): number => {
    const found = ids.get(name);
    if (found !== undefined) return found;
    const id = Number(insert().lastInsertRowid);
    ids.set(name, id);
    return id;
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
  const castingOnce = (maker: string, series: string, name: string, year: number | null): number => {
    const makerId = once(key('maker', maker), () => statements.maker.run(maker));
    const seriesId = once(key('series', makerId, series), () => statements.series.run(makerId, series));
    return once(key('casting', seriesId, name), () => statements.casting.run(seriesId, name, year));
  };
  const variation = (
    castingId: number,
    release: string,
    year: number | null,
    features: Partial<FeatureTexts>,
    rarity: string | null,
  ) => {
    const releaseId = once(key('release', castingId, release, year), () =>
      statements.release.run(castingId, release, year),
    );
    for (const feature of variationFeatures) {
      const value = features[feature];
      if (!value) continue;
      const entry = `${castingId} ${feature} ${value}`;
      if (listed.has(entry)) continue;
      if (listed.size < mostListed) listed.add(entry);
      statements.feature.run(castingId, feature, value);
    }
    return Number(
      statements.variation.run(
        releaseId,
        ...variationFeatures.map(feature => features[feature] ?? ''),
        rarity,
      ).lastInsertRowid,
    );
  };
  return { castings, casting, variation };
};

/** Judges the rows of a reference file: each is a variation; one that is known already is a duplicate. */
export const referenceJudge = async (
  collection: Collection,
  db: Kysely<Schema> | Transaction<Schema>,
): Promise<Judge> => {
  const writer = await referenceWriter(collection, db);
  const castingsById = new Map(writer.castings.map(casting => [casting.id, casting]));
  const byName = new Map<string, { maker: string; series: string }[]>();
  for (const { name, maker, series } of writer.castings)
    byName.set(plain(name), [...(byName.get(plain(name)) ?? []), { maker, series }]);
  const rarities = new Map<string, string | null>();
  const variationKey = (
    maker: string,
    series: string,
    casting: string,
    release: string,
    year: number | null,
    features: FeatureTexts,
  ) =>
    key(
      maker,
      series,
      casting,
      release,
      year,
      ...variationFeatures.map((feature: VariationFeature) => features[feature]),
    );
  for (const row of await listVariations(db)) {
    const casting = castingsById.get(row.castingId);
    if (casting)
      rarities.set(
        variationKey(
          casting.maker,
          casting.series,
          casting.name,
          row.releaseName,
          row.releaseYear,
          row.features,
        ),
        row.rarity,
      );
  }

  return (values, line) => {
    const name = takeText(values, 'casting');
    if (!name) throw new BadCell('casting', 'the casting has no name');
    const home = byName
      .get(plain(name))
      ?.find(
        known =>
          (!values.text('maker') || plain(values.text('maker')) === plain(known.maker)) &&
          (!values.text('series') || plain(values.text('series')) === plain(known.series)),
      );
    const maker = takeText(values, 'maker') || home?.maker || unknownMaker;
    const series = takeText(values, 'series') || home?.series || unsortedSeries;
    const release = takeText(values, 'release_name') || name;
    const year = take(values, 'release_year', readYear);
    const features = featuresOf(values);
    const rarity = take(values, 'rarity', readRarity);
    const identity = variationKey(maker, series, name, release, year, features);
    const before = rarities.get(identity);
    if (before !== undefined)
      return {
        outcome: 'duplicate',
        note:
          rarity && before && rarity !== before
            ? `this variation is known already, as ${before}; line ${line} says ${rarity}; nothing was changed`
            : 'this variation is known already; nothing was changed',
      };
    rarities.set(identity, rarity);
    if (!home) byName.set(plain(name), [...(byName.get(plain(name)) ?? []), { maker, series }]);
    return {
      outcome: 'accepted',
      note: null,
      unidentified: false,
      write: () =>
        void writer.variation(writer.casting(maker, series, name, year), release, year, features, rarity),
    };
  };
};

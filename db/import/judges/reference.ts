import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { readBasePaint, readRarity, readYear } from '../../../valuation/reading/words.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { plain } from '../../reference/plain.ts';
import { type FeatureTexts, listCastings, listVariations } from '../../reference/reference.ts';
import { type Detail, referenceFiller } from '../../reference/reference-filler.ts';
import { referenceInserter } from '../../reference/reference-inserter.ts';
import { unknownMaker, unsortedSeries } from '../../reference/unsorted.ts';
import type { Schema } from '../../schema.ts';
import {
  detailColumns,
  readFeatureValues,
  readLookAt,
  readPartDetails,
  readSwatch,
} from '../reference-details.ts';
import type { Judge, Judged, RowReader } from './judge.ts';
import { remembered } from './remembered.ts';

const basePaintOf = remembered(readBasePaint);
const rarityOf = remembered(readRarity);
const yearOf = remembered(readYear);

const several =
  /[,;]|(?<!\p{L})(?:or|oder|ou|various|several|assorted|verschiedene?|divers(?:es)?|varie)(?!\p{L})/iu;

/**
 * What a feature is; of several values in one cell, as "ivory or black", none is the variation's. Lists that we
 * export have one in each, commas and all.
 */
const featureText = (row: RowReader, column: string): string => {
  const text = row.takeText(column);
  const isOurs = () => row.habits.mapping.columns.some(({ heading }) => heading === 'base_paint');
  if (!several.test(text) || isOurs()) return text;
  row.miss(column, `"${text}" are several values: give each variation a row of its own`);
  delete row.fields[column];
  return '';
};

const featuresOf = (row: RowReader): FeatureTexts => {
  const features = {} as FeatureTexts;
  for (const feature of variationFeatures) features[feature] = featureText(row, featureColumns[feature]);
  features.basePaint = row.take('base_paint', basePaintOf) ?? '';
  return features;
};

const detailsOf = (row: RowReader): Detail[] =>
  detailColumns.flatMap(({ name, of, field, read }) => {
    const value = row.take(name, read);
    return value === null || value === '' ? [] : [{ of, field, value }];
  });

/** A variation by all that tells it apart. */
interface Named {
  maker: string;
  series: string;
  casting: string;
  release: string;
  year: number | null;
  features: FeatureTexts;
}

const keyOf = ({ maker, series, casting, release, year, features }: Named): string => {
  let key = `${plain(maker)}\u0001${plain(series)}\u0001${plain(casting)}\u0001${plain(release)}\u0001${year}`;
  for (const feature of variationFeatures) key += `\u0001${plain(features[feature])}`;
  return key;
};

/**
 * Judges the rows of a reference file: each is a variation; one that is known already is a duplicate. What is
 * not understood of it is saved in its notes, as it is written. `sqlite` is the writing connection inside the
 * import's action, null where rows are only looked at.
 */
export const referenceJudge = async (db: Kysely<Schema>, sqlite: Database | null): Promise<Judge> => {
  const inserter = sqlite && (await referenceInserter(sqlite, db));
  const fill = sqlite && referenceFiller(sqlite);
  const castings = await listCastings(db);
  const castingsById = new Map(castings.map(casting => [casting.id, casting]));
  const homes = new Map<string, { maker: string; series: string }[]>();
  const addHome = (name: string, home: { maker: string; series: string }) => {
    const known = homes.get(plain(name));
    if (known) known.push(home);
    else homes.set(plain(name), [home]);
  };
  for (const { name, maker, series } of castings) addHome(name, { maker, series });
  const rarities = new Map<string, string | null>();
  for (const { castingId, releaseName, releaseYear, features, rarity } of await listVariations(db)) {
    const casting = castingsById.get(castingId);
    if (!casting) continue;
    const { maker, series, name } = casting;
    rarities.set(
      keyOf({ maker, series, casting: name, release: releaseName, year: releaseYear, features }),
      rarity,
    );
  }

  return (row, line): Judged => {
    const name = row.takeText('casting');
    if (!name) row.refuse('casting', 'the casting has no name');
    const ownMaker = row.takeText('maker');
    const ownSeries = row.takeText('series');
    const home = homes
      .get(plain(name))
      ?.find(
        known =>
          (!ownMaker || plain(ownMaker) === plain(known.maker)) &&
          (!ownSeries || plain(ownSeries) === plain(known.series)),
      );
    const maker = ownMaker || home?.maker || unknownMaker;
    const series = ownSeries || home?.series || unsortedSeries;
    const release = row.takeText('release_name') || name;
    const year = row.take('release_year', yearOf);
    const features = featuresOf(row);
    const rarity = row.take('rarity', rarityOf);
    const details = detailsOf(row);
    const shade = row.take('swatch', readSwatch);
    const facts = {
      parts: row.read('parts', readPartDetails) ?? [],
      lookAt: row.read('look_at', readLookAt) ?? [],
      featureValues: row.read('feature_values', readFeatureValues) ?? [],
      swatch: shade && features.colour ? { colour: features.colour, swatch: shade } : null,
    };
    const rejected = row.rejected();
    if (rejected) return rejected;
    const key = keyOf({ maker, series, casting: name, release, year, features });
    const before = rarities.get(key);
    if (before !== undefined)
      return {
        outcome: 'duplicate',
        note:
          rarity && before && rarity !== before
            ? `this variation is known already, as ${before}; line ${line} says ${rarity}; nothing was changed`
            : 'this variation is known already; nothing was changed',
      };
    rarities.set(key, rarity);
    const left = row.unread.map(({ column, text }) => `${column}: ${text}`).join('\n');
    if (!home) addHome(name, { maker, series });
    return {
      outcome: 'accepted',
      notes: row.notes,
      unidentified: false,
      write: () => {
        if (!inserter || !fill) return;
        const first = details.find(({ of, field }) => of === 'casting' && field === 'first_year')?.value;
        const castingId = inserter.casting(maker, series, name, typeof first === 'number' ? first : year);
        const id = inserter.variation(castingId, { release, year, features, rarity });
        fill(id, details, facts);
        if (left) inserter.note(id, left);
      },
    };
  };
};

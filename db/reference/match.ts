import type { Kysely } from 'kysely';
import type { VariationFeature } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';
import { plainBasePaint } from './feature-columns.ts';
import { type Match, variationFinder } from './matching/fitting.ts';
import { type CastingWithReleases, knownTexts, type ReferenceCasting } from './matching/known-texts.ts';
import { nameFinder } from './matching/names.ts';
import { loadTables, pairOf } from './matching/tables.ts';
import { plain } from './plain.ts';
import type { SettledName } from './settled-names.ts';

export { type Match, plainBasePaint, type ReferenceCasting };

/**
 * Matches text as it was typed or imported, by our import columns, against the reference as it
 * was when loaded.
 */
export type Matcher = (written: Record<string, string>) => Match;

const nothing: Match = { castingId: null, releaseId: null, variationId: null, candidates: [] };

/**
 * Loads the reference once and returns a matcher for any number of rows. `casting` is matched to a casting's
 * name or to the name of one of its releases, exactly but for case, spaces, accents and hyphens, or else to
 * what the owner has settled that the text means; `maker` and `series` tell castings of one name apart;
 * `release_name` and `release_year` narrow to a release; every feature column that has text must be equal.
 * Text that fits no variation leaves the casting known and the variation open.
 */
export const loadMatcher = async (db: Kysely<Schema>): Promise<Matcher> => (await loadReference(db)).match;

export interface LoadedReference {
  match: Matcher;
  /** The same for text of which the casting is known already, whatever name it gives. */
  matchWithin(castingId: number, written: Record<string, string>): Match;
  /** Whether any variation of the casting has all that the text says. */
  fitsAny(castingId: number, written: Record<string, string>): boolean;
  /** What the owner has settled that a text means; undefined where nothing was. */
  settled(text: string): SettledName | undefined;
  /** The colours of a casting's variations, each by its plain text. */
  coloursOf(castingId: number): Map<string, string>;
  /** A casting's name and its features' texts; undefined where there is none of this id. */
  castingOf(castingId: number): ReferenceCasting | undefined;
  /** A feature's texts among all castings, each by its plain text. */
  textsOf(feature: VariationFeature): ReadonlyMap<string, string>;
  /** Every casting with its releases. */
  castings(): CastingWithReleases[];
  /** True of the name of a maker or a series, or the first word of one, that no casting has. */
  isRange(text: string): boolean;
  /** True of two texts that the owner has said to be different names. */
  areParted(one: string, other: string): boolean;
  releaseName(releaseId: number): string | undefined;
  releasesOf(castingId: number): { name: string; year: number | null }[];
}

/** The reference as it is now: `loadMatcher`'s matcher, and what explains why a text led to no variation. */
export const loadReference = async (db: Kysely<Schema>): Promise<LoadedReference> => {
  const tables = await loadTables(db);
  const { findCasting, releaseIn, knownRelease } = nameFinder(tables);
  const { fittingOf, meantBy, within } = variationFinder(tables);
  return {
    ...knownTexts(tables),
    match: written => {
      const castingId = findCasting(written);
      return castingId === null ? nothing : within(castingId, releaseIn(castingId, written), written);
    },
    matchWithin: (castingId, written) => within(castingId, knownRelease(castingId, written), written),
    fitsAny: (castingId, written) =>
      meantBy(castingId, written) !== undefined ||
      fittingOf(castingId, knownRelease(castingId, written), written).fitting.length > 0,
    settled: text => tables.settledByText.get(plain(text)),
    areParted: (one, other) => tables.parted.has(pairOf(one, other)),
    releaseName: releaseId => tables.releases.get(releaseId)?.name,
  };
};

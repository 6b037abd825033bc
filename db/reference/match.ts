import type { Kysely } from 'kysely';
import { readBasePaint } from '../../valuation/reading/words.ts';
import { type VariationFeature, variationFeatures } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';
import { listCastings, listReleases, listVariations } from './reference.ts';

/** What text says a car is. Nothing is guessed: what fits more than one thing stays open. */
export interface Match {
  castingId: number | null;
  releaseId: number | null;
  /** Set where exactly one variation fits. */
  variationId: number | null;
  /** Variations that the text leaves open, where it narrows them to some but not to one. */
  candidates: number[];
}

/** Matches text as it was typed or imported, by our import columns, against the reference as it was when loaded. */
export type Matcher = (written: Record<string, string>) => Match;

/** The import column that names each feature. */
export const featureColumns: Record<VariationFeature, string> = {
  colour: 'colour',
  bodyFinish: 'body_finish',
  basePaint: 'base_paint',
  rearEnd: 'rear_end',
  roof: 'roof',
  interior: 'interior',
  glazing: 'glazing',
  wheels: 'wheels',
  accessory: 'accessory',
  country: 'country',
};

// Most texts need nothing done but their capitals; to see that is several times faster than to do it.
const alreadyPlain = /^(?:[!-~]+(?: [!-~]+)*)?$/;

/** Text as it is compared: one spelling of letters and spaces, no case. */
export const plain = (text: string): string =>
  alreadyPlain.test(text)
    ? text.toLowerCase()
    : text.normalize('NFKC').replace(/\s+/g, ' ').trim().toLowerCase();

/** A base paint as the reference names it, from the ways in which owners write it; other text comes back plain. */
export const plainBasePaint = (text: string): string => {
  const paint = readBasePaint(text);
  return paint.ok ? paint.value : plain(text);
};

const nothing: Match = { castingId: null, releaseId: null, variationId: null, candidates: [] };

const group = <T>(list: T[], key: (item: T) => string | number) => {
  const groups = new Map<string | number, T[]>();
  for (const item of list) {
    const found = groups.get(key(item));
    if (found) found.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
};

/**
 * Loads the reference once and returns a matcher for any number of rows. `casting` is matched to a casting's name or to
 * the name of one of its releases, exactly but for case and spaces; `maker` and `series` tell castings of one name
 * apart; `release_name` and `release_year` narrow to a release; every feature column that has text must be equal. Text
 * that fits no variation leaves the casting known and the variation open.
 */
export const loadMatcher = async (db: Kysely<Schema>): Promise<Matcher> => (await loadReference(db)).match;

export interface LoadedReference {
  match: Matcher;
  /** The colours of a casting's variations, each by its plain text. */
  coloursOf(castingId: number): Map<string, string>;
}

/** The reference as it is now: `loadMatcher`'s matcher, and what explains why a text led to no variation. */
export const loadReference = async (db: Kysely<Schema>): Promise<LoadedReference> => {
  const castings = await listCastings(db);
  const releases = await listReleases(db);
  const variations = await listVariations(db);
  const castingsById = new Map(castings.map(casting => [casting.id, casting]));
  const castingsByName = group(castings, casting => plain(casting.name));
  const releasesByName = group(releases, release => plain(release.name));
  const releasesByCasting = group(releases, release => release.castingId);
  const prepared = variations.map(variation => ({
    id: variation.id,
    castingId: variation.castingId,
    releaseId: variation.releaseId,
    features: Object.fromEntries(
      variationFeatures.map(feature => [feature, plain(variation.features[feature])]),
    ) as Record<VariationFeature, string>,
  }));
  const variationsByCasting = group(prepared, variation => variation.castingId);
  const coloursByCasting = group(variations, variation => variation.castingId);

  const findCasting = (written: Record<string, string>): number | null => {
    const text = plain(written.casting ?? '') || plain(written.release_name ?? '');
    if (text === '') return null;
    const byRelease = (releasesByName.get(text) ?? []).map(release => release.castingId);
    const named = castingsByName.get(text)?.map(casting => casting.id) ?? byRelease;
    const series = plain(written.series ?? '');
    const maker = plain(written.maker ?? '');
    const fitting = [...new Set(named)].filter(id => {
      const casting = castingsById.get(id);
      return (
        casting !== undefined &&
        (series === '' || plain(casting.series) === series) &&
        (maker === '' || plain(casting.maker) === maker)
      );
    });
    if (fitting.length === 1) return fitting[0] ?? null;
    const release = plain(written.release_name ?? '');
    const ofRelease = fitting.filter(id =>
      releasesByCasting.get(id)?.some(candidate => plain(candidate.name) === release),
    );
    return ofRelease.length === 1 ? (ofRelease[0] ?? null) : null;
  };

  const findReleases = (castingId: number, written: Record<string, string>) => {
    const all = releasesByCasting.get(castingId) ?? [];
    const casting = plain(castingsById.get(castingId)?.name ?? '');
    const typed = plain(written.casting ?? '');
    // A casting typed by the name of a re-release means that release.
    const name = plain(written.release_name ?? '') || (typed === casting ? '' : typed);
    const year = (written.release_year ?? '').trim();
    return all.filter(
      release =>
        (name === '' || plain(release.name) === name) && (year === '' || String(release.year ?? '') === year),
    );
  };

  const colours = new Map<number, Map<string, string>>();
  const coloursOf = (castingId: number): Map<string, string> => {
    const known =
      colours.get(castingId) ??
      new Map(
        (coloursByCasting.get(castingId) ?? []).flatMap(({ features: { colour } }) =>
          colour ? [[plain(colour), colour] as const] : [],
        ),
      );
    colours.set(castingId, known);
    return known;
  };
  const match: Matcher = written => {
    const castingId = findCasting(written);
    if (castingId === null) return nothing;
    const fittingReleases = findReleases(castingId, written);
    const releaseId = fittingReleases.length === 1 ? (fittingReleases[0]?.id ?? null) : null;
    const releaseIds = new Set(fittingReleases.map(release => release.id));
    const wanted = variationFeatures.flatMap(feature => {
      const text = written[featureColumns[feature]] ?? '';
      const value = feature === 'basePaint' ? plainBasePaint(text) : plain(text);
      return value === '' ? [] : [[feature, value] as const];
    });
    const all = variationsByCasting.get(castingId) ?? [];
    const fitting = all.filter(
      variation =>
        releaseIds.has(variation.releaseId) &&
        wanted.every(([feature, value]) => variation.features[feature] === value),
    );
    const only = fitting.length === 1 ? fitting[0] : undefined;
    if (only) return { castingId, releaseId: only.releaseId, variationId: only.id, candidates: [] };
    const narrowed = fitting.length < all.length ? fitting.map(variation => variation.id) : [];
    return { castingId, releaseId, variationId: null, candidates: narrowed };
  };
  return { match, coloursOf };
};

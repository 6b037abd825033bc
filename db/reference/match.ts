import type { Kysely } from 'kysely';
import { featureColumns } from '../../valuation/reading/feature-columns.ts';
import { type VariationFeature, variationFeatures } from '../../valuation/words.ts';
import type { Schema } from '../schema.ts';
import { comparableTexts, plainBasePaint, seenText } from './feature-columns.ts';
import { bare, plain } from './plain.ts';
import { listCastings, listReleases, listVariations } from './reference.ts';
import { partedNames, type SettledName, settledNames, settledVariations } from './settled-names.ts';

/** What text says a car is. Nothing is guessed: what fits more than one thing stays open. */
export interface Match {
  castingId: number | null;
  releaseId: number | null;
  /** Set where exactly one variation fits. */
  variationId: number | null;
  /** Variations that the text leaves open, where it narrows them to some but not to one. */
  candidates: number[];
}

/**
 * Matches text as it was typed or imported, by our import columns, against the reference as it
 * was when loaded.
 */
export type Matcher = (written: Record<string, string>) => Match;

export { plainBasePaint };

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
 * Loads the reference once and returns a matcher for any number of rows. `casting` is matched to a casting's
 * name or to the name of one of its releases, exactly but for case, spaces, accents and hyphens, or else to
 * what the owner has settled that the text means; `maker` and `series` tell castings of one name apart;
 * `release_name` and `release_year` narrow to a release; every feature column that has text must be equal.
 * Text that fits no variation leaves the casting known and the variation open.
 */
export const loadMatcher = async (db: Kysely<Schema>): Promise<Matcher> => (await loadReference(db)).match;

export interface ReferenceCasting {
  id: number;
  name: string;
  maker: string;
  series: string;
  /** The texts that each feature takes among its variations. */
  features: Record<VariationFeature, string[]>;
}

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
  castings(): {
    id: number;
    name: string;
    maker: string;
    series: string;
    releases: { name: string; year: number | null }[];
  }[];
  /** True of the name of a maker or a series, or the first word of one, that no casting has. */
  isRange(text: string): boolean;
  /** True of two texts that the owner has said to be different names. */
  areParted(one: string, other: string): boolean;
  releaseName(releaseId: number): string | undefined;
  releasesOf(castingId: number): { name: string; year: number | null }[];
}

/** The reference as it is now: `loadMatcher`'s matcher, and what explains why a text led to no variation. */
export const loadReference = async (db: Kysely<Schema>): Promise<LoadedReference> => {
  const castings = await listCastings(db);
  const releases = await listReleases(db);
  const variations = await listVariations(db);
  const settledByText = await settledNames(db);
  const settledSeen = await settledVariations(db);
  const settled = (text: string) => settledByText.get(plain(text));
  const releasesById = new Map(releases.map(release => [release.id, release]));
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

  // Names that differ from the text in accents, hyphens and spaces alone; what fits two of them is neither.
  const byBare = group([...castingsByName.keys(), ...releasesByName.keys()].map(String), bare);
  const named = new Map<string, string>();
  /** A name as the reference has it, plain. */
  const nameOf = (given: string | undefined): string => {
    const text = plain(given ?? '');
    if (text === '' || castingsByName.has(text) || releasesByName.has(text) || settledByText.has(text))
      return text;
    const known = named.get(text);
    if (known !== undefined) return known;
    const alike = new Set(byBare.get(bare(text)));
    const name = alike.size === 1 ? ([...alike][0] ?? text) : text;
    if (named.size < 10_000) named.set(text, name);
    return name;
  };
  const nameIn = (written: Record<string, string>) => nameOf(written.casting) || nameOf(written.release_name);
  const findCasting = (written: Record<string, string>): number | null =>
    castingOfName(written) ?? settledByText.get(nameIn(written))?.castingId ?? null;
  const castingOfName = (written: Record<string, string>): number | null => {
    const text = nameIn(written);
    if (text === '') return null;
    const byRelease = (releasesByName.get(text) ?? []).map(release => release.castingId);
    const ofName = castingsByName.get(text)?.map(casting => casting.id) ?? byRelease;
    const series = plain(written.series ?? '');
    const maker = plain(written.maker ?? '');
    const fitting = [...new Set(ofName)].filter(id => {
      const casting = castingsById.get(id);
      return (
        casting !== undefined &&
        (series === '' || plain(casting.series) === series) &&
        (maker === '' || plain(casting.maker) === maker)
      );
    });
    if (fitting.length === 1) return fitting[0] ?? null;
    const release = nameOf(written.release_name);
    const ofRelease = fitting.filter(id =>
      releasesByCasting.get(id)?.some(candidate => plain(candidate.name) === release),
    );
    return ofRelease.length === 1 ? (ofRelease[0] ?? null) : null;
  };

  /**
   * The release that the text names, if any, as the reference spells it: a casting typed by the name of a
   * re-release means that one.
   */
  const releaseIn = (castingId: number, written: Record<string, string>): string => {
    const given = nameOf(written.release_name) || nameOf(written.casting);
    const named = settledByText.get(given);
    if (
      named?.castingId === castingId &&
      !releasesByCasting.get(castingId)?.some(one => plain(one.name) === given)
    )
      return named.releaseId === null ? '' : plain(releasesById.get(named.releaseId)?.name ?? '');
    const isCasting = given === plain(castingsById.get(castingId)?.name ?? '');
    return !plain(written.release_name ?? '') && isCasting ? '' : given;
  };
  const findReleases = (castingId: number, name: string, written: Record<string, string>) => {
    const year = (written.release_year ?? '').trim();
    return (releasesByCasting.get(castingId) ?? []).filter(
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
  const fittingOf = (castingId: number, release: string, written: Record<string, string>) => {
    const fittingReleases = findReleases(castingId, release, written);
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
    return { all, fitting, releaseId };
  };
  /** The variation that the owner has settled such texts to mean. */
  const meantBy = (castingId: number, written: Record<string, string>) => {
    const name = castingsById.get(castingId)?.name ?? '';
    const id = settledSeen.get(`${castingId} ${seenText(comparableTexts(written, name))}`);
    return id === undefined ? undefined : variationsByCasting.get(castingId)?.find(one => one.id === id);
  };
  const within = (castingId: number, release: string, written: Record<string, string>): Match => {
    const { all, fitting, releaseId } = fittingOf(castingId, release, written);
    const only = fitting.length === 1 ? fitting[0] : undefined;
    if (only) return { castingId, releaseId: only.releaseId, variationId: only.id, candidates: [] };
    const meant = settledSeen.size > 0 ? meantBy(castingId, written) : undefined;
    if (meant) return { castingId, releaseId: meant.releaseId, variationId: meant.id, candidates: [] };
    const narrowed = fitting.length < all.length ? fitting.map(variation => variation.id) : [];
    return { castingId, releaseId, variationId: null, candidates: narrowed };
  };
  const match: Matcher = written => {
    const castingId = findCasting(written);
    return castingId === null ? nothing : within(castingId, releaseIn(castingId, written), written);
  };
  /** The release that the text names, where the casting has it. */
  const knownRelease = (castingId: number, written: Record<string, string>): string => {
    const named = releaseIn(castingId, written);
    return releasesByCasting.get(castingId)?.some(release => plain(release.name) === named) ? named : '';
  };
  const matchWithin = (castingId: number, written: Record<string, string>): Match =>
    within(castingId, knownRelease(castingId, written), written);
  const fitsAny = (castingId: number, written: Record<string, string>): boolean =>
    meantBy(castingId, written) !== undefined ||
    fittingOf(castingId, knownRelease(castingId, written), written).fitting.length > 0;
  const described = new Map<number, ReferenceCasting>();
  const castingOf = (castingId: number): ReferenceCasting | undefined => {
    const before = described.get(castingId);
    if (before) return before;
    const casting = castingsById.get(castingId);
    if (!casting) return undefined;
    const own = coloursByCasting.get(castingId) ?? [];
    const features = Object.fromEntries(
      variationFeatures.map(feature => [
        feature,
        [...new Set(own.map(variation => variation.features[feature]).filter(Boolean))],
      ]),
    ) as ReferenceCasting['features'];
    const { id, name, maker, series } = casting;
    const made = { id, name, maker, series, features };
    described.set(castingId, made);
    return made;
  };
  const texts = new Map<VariationFeature, Map<string, string>>();
  const textsOf = (feature: VariationFeature): ReadonlyMap<string, string> => {
    const known =
      texts.get(feature) ??
      new Map(
        variations.flatMap(({ features }) =>
          features[feature] ? [[plain(features[feature]), features[feature]] as const] : [],
        ),
      );
    texts.set(feature, known);
    return known;
  };
  const releaseName = (releaseId: number) => releasesById.get(releaseId)?.name;
  const releasesOf = (castingId: number) =>
    (releasesByCasting.get(castingId) ?? []).map(({ name, year }) => ({ name, year }));
  const castingsOf = () =>
    castings.map(({ id, name, maker, series }) => ({ id, name, maker, series, releases: releasesOf(id) }));
  const ranges = new Set(
    castings.flatMap(({ maker, series }) => [maker, series, maker.split(' ')[0] ?? '']).map(bare),
  );
  const isRange = (text: string): boolean =>
    bare(text) !== '' &&
    ranges.has(bare(text)) &&
    !castings.some(({ name }) => plain(name).split(' ').includes(plain(text)));
  const parted = new Set((await partedNames(db)).map(pair => [...pair].sort().join('\u0001')));
  const areParted = (one: string, other: string): boolean =>
    parted.has([plain(one), plain(other)].sort().join('\u0001'));
  return {
    castings: castingsOf,
    isRange,
    areParted,
    match,
    matchWithin,
    fitsAny,
    settled,
    coloursOf,
    castingOf,
    textsOf,
    releaseName,
    releasesOf,
  };
};

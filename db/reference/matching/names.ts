import { bare, plain } from '../plain.ts';
import type { ReferenceTables } from './tables.ts';

type Written = Record<string, string>;

/** So many texts are remembered with the name that they are; further ones are looked up each time. */
const mostRemembered = 10_000;

/** Words that names of makers and series share. */
const common = new Set([
  'toys',
  'toy',
  'co',
  'ltd',
  'inc',
  'company',
  'of',
  'the',
  'series',
  'range',
  'line',
  'cars',
]);
const wordsOf = (name: string): string[] =>
  (plain(name).match(/[\p{L}\p{N}]+/gu) ?? [])
    .filter(word => !common.has(word))
    .map(word => word.replace(/s$/, ''));

/** True where one of two names of a maker or a series is the other, or a part of it as "Thornby" of "Thornby Toys of Marl". */
const isPartOf = (one: string, other: string): boolean => {
  const [words, others] = [wordsOf(one), wordsOf(other)];
  const has = (all: string[], some: string[]) => some.length > 0 && some.every(word => all.includes(word));
  return has(words, others) || has(others, words);
};

/** Finds what the names in a text mean: a casting, and a release of it. */
export const nameFinder = ({
  castings,
  releases,
  castingsByName,
  releasesByName,
  releasesByCasting,
  settledByText,
}: ReferenceTables) => {
  // Names that differ from the text in accents, hyphens and spaces alone; what fits two of them is neither.
  const byBare = Map.groupBy([...castingsByName.keys(), ...releasesByName.keys()], bare);
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
    if (named.size < mostRemembered) named.set(text, name);
    return name;
  };
  const nameIn = (written: Written) => nameOf(written.casting) || nameOf(written.release_name);
  const findCasting = (written: Written): number | null =>
    castingOfName(written) ?? settledByText.get(nameIn(written))?.castingId ?? null;
  const castingOfName = (written: Written): number | null => {
    const text = nameIn(written);
    if (text === '') return null;
    const byRelease = (releasesByName.get(text) ?? []).map(release => release.castingId);
    const ofName = castingsByName.get(text)?.map(casting => casting.id) ?? byRelease;
    const series = plain(written.series ?? '');
    const maker = plain(written.maker ?? '');
    const within = (isSame: (one: string, other: string) => boolean) =>
      [...new Set(ofName)].filter(id => {
        const casting = castings.get(id);
        return (
          casting !== undefined &&
          (series === '' || isSame(plain(casting.series), series)) &&
          (maker === '' || isSame(plain(casting.maker), maker))
        );
      });
    const exact = within((one, other) => one === other);
    const fitting = exact.length > 0 ? exact : within(isPartOf);
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
  const releaseIn = (castingId: number, written: Written): string => {
    const given = nameOf(written.release_name) || nameOf(written.casting);
    const named = settledByText.get(given);
    if (
      named?.castingId === castingId &&
      !releasesByCasting.get(castingId)?.some(one => plain(one.name) === given)
    )
      return named.releaseId === null ? '' : plain(releases.get(named.releaseId)?.name ?? '');
    const isCasting = given === plain(castings.get(castingId)?.name ?? '');
    return !plain(written.release_name ?? '') && isCasting ? '' : given;
  };

  /** The release that the text names, where the casting has it. */
  const knownRelease = (castingId: number, written: Written): string => {
    const named = releaseIn(castingId, written);
    return releasesByCasting.get(castingId)?.some(release => plain(release.name) === named) ? named : '';
  };

  return { findCasting, releaseIn, knownRelease };
};

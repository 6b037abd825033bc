import type { VariationFeature } from '../../words.ts';
import { fold } from './text.ts';

/** A casting as lines are read against it. */
export interface LexiconCasting {
  id: number;
  name: string;
  maker: string;
  series: string;
  releases: { name: string; year: number | null }[];
  /** Other texts that the owner has settled to mean it. */
  spellings?: string[];
  /** The texts that each feature takes among its variations. */
  features: Partial<Record<VariationFeature, string[]>>;
}

/** What a text of the owner's means: a field and its value, or nothing at all where the meaning is empty. */
export interface OwnWord {
  /** The column in which it holds; `*` is any. */
  column: string;
  text: string;
  field: string;
  meaning: string;
}

/** A name of a casting or of one of its releases, ready to be compared. */
export interface KnownName {
  castingId: number;
  /** As the reference writes it. */
  name: string;
  isRelease: boolean;
  words: string[];
  /** The words without what is between them. */
  joined: string;
}

export interface Lexicon {
  castings: ReadonlyMap<number, LexiconCasting>;
  names: KnownName[];
  byJoined: ReadonlyMap<string, KnownName[]>;
  /** Names by their words in any order, as `inAnyOrder` puts them. */
  byWords: ReadonlyMap<string, KnownName>;
  /** Castings whose names begin with a word, where that word is nothing else. */
  byFirstWord: ReadonlyMap<string, ReadonlySet<number>>;
  mostWords: number;
  /** Feature texts of all castings, by their folded text. */
  features: ReadonlyMap<VariationFeature, ReadonlyMap<string, string>>;
  /** The colours of the whole reference, which may have more castings than are read for. */
  colours: ReadonlySet<string>;
  ownWords: OwnWord[];
}

export const wordsOf = (text: string): string[] => fold(text).match(/[\p{L}\p{N}]+/gu) ?? [];

/** The words of a name as lines are cut into them: without the 's of an owner. */
export const nameWordsOf = (text: string): string[] =>
  (fold(text).match(/[\p{L}\p{N}]+(?:'s(?!\p{L}))?/gu) ?? []).map(word => word.replace(/'s$/, ''));

/** The same text for the same words, whatever their order. */
export const inAnyOrder = (words: string[]): string => [...words].sort().join(' ');

const addTo = <K, V>(map: Map<K, V[]>, key: K, value: V) => map.set(key, [...(map.get(key) ?? []), value]);

/**
 * Prepares the reference and the owner's words for reading any number of lines; `colours` are those of the
 * whole reference, where `castings` are only some of it.
 */
export const makeLexicon = (
  castings: LexiconCasting[],
  ownWords: OwnWord[] = [],
  colours: Iterable<string> = castings.flatMap(({ features }) => features.colour ?? []),
): Lexicon => {
  const names: KnownName[] = [];
  for (const casting of castings) {
    const known = new Set<string>();
    const add = (name: string, isRelease: boolean) => {
      const words = nameWordsOf(name);
      const joined = words.join('');
      if (!joined || known.has(joined)) return;
      known.add(joined);
      names.push({ castingId: casting.id, name, isRelease, words, joined });
    };
    add(casting.name, false);
    for (const release of casting.releases) add(release.name, true);
    for (const spelling of casting.spellings ?? []) add(spelling, false);
  }
  const byJoined = new Map<string, KnownName[]>();
  const byFirstWord = new Map<string, Set<number>>();
  const ranges = new Set(castings.flatMap(({ maker, series }) => wordsOf(`${maker} ${series}`)));
  for (const name of names) {
    addTo(byJoined, name.joined, name);
    const first = name.words[0] ?? '';
    if (first.length >= 5 && !ranges.has(first))
      byFirstWord.set(first, (byFirstWord.get(first) ?? new Set()).add(name.castingId));
  }
  const features = new Map<VariationFeature, Map<string, string>>();
  for (const casting of castings)
    for (const [feature, texts] of Object.entries(casting.features) as [VariationFeature, string[]][])
      for (const text of texts) {
        const known = features.get(feature) ?? new Map<string, string>();
        const folded = fold(text).trim();
        if (folded && !known.has(folded)) known.set(folded, text);
        features.set(feature, known);
      }
  return {
    castings: new Map(castings.map(casting => [casting.id, casting])),
    names,
    byJoined,
    byWords: new Map(names.map(name => [inAnyOrder(name.words), name])),
    byFirstWord,
    mostWords: names.reduce((most, name) => Math.max(most, name.words.length), 1),
    features,
    colours: new Set([...colours].map(colour => fold(colour).trim())),
    ownWords: [...ownWords].sort((a, b) => b.text.length - a.text.length),
  };
};

import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';
import { bare, plain } from '../plain.ts';
import type { ReferenceTables } from './tables.ts';

export interface ReferenceCasting {
  id: number;
  name: string;
  maker: string;
  series: string;
  /** The texts that each feature takes among its variations. */
  features: Record<VariationFeature, string[]>;
}

/** A casting with its releases. */
export interface CastingWithReleases extends Omit<ReferenceCasting, 'features'> {
  releases: { name: string; year: number | null }[];
}

/** The texts that the reference has for castings and features, each gathered when it is first asked for. */
export const knownTexts = ({
  castings,
  variations,
  releasesByCasting,
  variationsByCasting,
}: ReferenceTables) => {
  const colours = new Map<number, Map<string, string>>();
  const coloursOf = (castingId: number): Map<string, string> => {
    const known =
      colours.get(castingId) ??
      new Map(
        (variationsByCasting.get(castingId) ?? []).flatMap(({ features: { colour } }) =>
          colour ? [[plain(colour), colour] as const] : [],
        ),
      );
    colours.set(castingId, known);
    return known;
  };
  const described = new Map<number, ReferenceCasting>();
  const castingOf = (castingId: number): ReferenceCasting | undefined => {
    const before = described.get(castingId);
    if (before) return before;
    const casting = castings.get(castingId);
    if (!casting) return undefined;
    const own = variationsByCasting.get(castingId) ?? [];
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
  const releasesOf = (castingId: number) =>
    (releasesByCasting.get(castingId) ?? []).map(({ name, year }) => ({ name, year }));
  const all = [...castings.values()];
  const ranges = new Set(
    all.flatMap(({ maker, series }) => [maker, series, maker.split(' ')[0] ?? '']).map(bare),
  );
  return {
    coloursOf,
    castingOf,
    textsOf,
    releasesOf,
    castings: (): CastingWithReleases[] =>
      all.map(({ id, name, maker, series }) => ({ id, name, maker, series, releases: releasesOf(id) })),
    isRange: (text: string): boolean =>
      bare(text) !== '' &&
      ranges.has(bare(text)) &&
      !all.some(({ name }) => plain(name).split(' ').includes(plain(text))),
  };
};

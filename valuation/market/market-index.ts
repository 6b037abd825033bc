import type { Market } from '../types.ts';
import type { Rarity } from '../words.ts';

/**
 * The tree of a market in places instead of ids: series hold castings, castings hold variations, each list
 * sorted by id so that nothing depends on the order in which the market was gathered.
 */
export interface MarketIndex {
  castingIds: number[];
  seriesCount: number;
  /** Series of each casting, casting of each variation, variations of each casting: all places. */
  castingSeries: number[];
  variationIds: number[];
  variationCasting: number[];
  variationRarity: (Rarity | null)[];
  castingVariations: number[][];
  seriesPlace: Map<number, number>;
  castingPlace: Map<number, number>;
  variationPlace: Map<number, number>;
}

/** Throws RangeError on an id given twice and on a variation whose casting is not among the castings. */
export const indexMarket = (market: Market): MarketIndex => {
  const castings = [...market.castings].sort((a, b) => a.id - b.id);
  const variations = [...market.variations].sort((a, b) => a.id - b.id);
  const castingPlace = new Map(castings.map(({ id }, i) => [id, i]));
  const variationPlace = new Map(variations.map(({ id }, i) => [id, i]));
  if (castingPlace.size !== castings.length) throw new RangeError('castings must not hold an id twice');
  if (variationPlace.size !== variations.length) throw new RangeError('variations must not hold an id twice');
  const seriesIds = [...new Set(castings.map(({ seriesId }) => seriesId))].sort((a, b) => a - b);
  const seriesPlace = new Map(seriesIds.map((id, i) => [id, i]));
  const castingVariations: number[][] = castings.map(() => []);
  const variationCasting = variations.map(({ id, castingId }, i) => {
    const casting = castingPlace.get(castingId);
    if (casting === undefined)
      throw new RangeError(`variation ${id} is of casting ${castingId}, which is not among the castings`);
    castingVariations[casting]!.push(i);
    return casting;
  });
  return {
    castingIds: castings.map(({ id }) => id),
    seriesCount: seriesIds.length,
    castingSeries: castings.map(({ seriesId }) => seriesPlace.get(seriesId)!),
    variationIds: variations.map(({ id }) => id),
    variationCasting,
    variationRarity: variations.map(({ rarity }) => rarity),
    castingVariations,
    seriesPlace,
    castingPlace,
    variationPlace,
  };
};

import { type Rarity, rarities } from '../words.ts';
import type { MarketIndex } from './market-index.ts';

/**
 * How common a variation of each rarity is beside the others: what an unnamed variation of a
 * casting most likely is.
 */
const supply: Record<Rarity, number> = { common: 1, uncommon: 0.6, scarce: 0.25, rare: 0.08 };

/**
 * Relative supply of a variation (common = 1), by which candidates are weighted; unknown rarity
 * counts as uncommon.
 */
export const supplyOf = (rarity: Rarity | null): number => (rarity === null ? 0.6 : supply[rarity]);

/**
 * How often a variation whose rarity nobody has noted was seen sold, beside the other variations of its casting:
 * the number of its sale records, `mostSeen` standing for more, and how many a common one would be expected to
 * have by theirs.
 */
export interface Sightings {
  seen: number;
  expected: number;
}

/** A rarity, what is told of an unknown one, or (null) an unknown one of which nothing is told. */
export type RarityKey = Rarity | null | Sightings;

/** More sales than these say more of who looks than of how common it is. */
const mostSeen = 3;
/** A common variation of which fewer are expected would not be missed. */
const fewestExpected = 0.2;

/**
 * Chance of each rarity (in the order of `rarities`), from how common each is and how often the variation was
 * seen. Sightings have an expectation that follows the supply, and one that differs as much from variation to
 * variation as an exponential law has it, so that their number is geometric: a variation that was never seen
 * where others were is likelier rare, one seen often is likelier common.
 * Source: Greenwood & Yule (1920), Journal of the Royal Statistical Society 83, the negative binomial law.
 */
export const rarityChances = (sightings: Sightings | null): number[] => {
  const likely = rarities.map(rarity => {
    const supply = supplyOf(rarity);
    if (!sightings) return supply;
    const none = 1 / (1 + sightings.expected * supply);
    const { seen } = sightings;
    return supply * (1 - none) ** seen * (seen < mostSeen ? none : 1);
  });
  const total = likely.reduce((sum, one) => sum + one, 0);
  return likely.map(one => one / total);
};

/**
 * The rarity of each variation, and of an unknown one what the sale records of its casting tell: `sold` holds
 * the variation of each record. Expectations are rounded to powers of two, so that few keys stand for all.
 */
export const rarityKeys = (
  { variationRarity, variationCasting, castingVariations }: MarketIndex,
  sold: readonly number[],
): RarityKey[] => {
  const records = new Int32Array(variationRarity.length);
  for (const variation of sold) if (variation >= 0) records[variation]!++;
  const castings = castingVariations.map(places => ({
    records: places.reduce((sum, v) => sum + records[v]!, 0),
    supply: places.reduce((sum, v) => sum + supplyOf(variationRarity[v]!), 0),
  }));
  const known = new Map<string, Sightings>();
  return variationRarity.map((rarity, v) => {
    if (rarity !== null) return rarity;
    const casting = castings[variationCasting[v]!]!;
    const supply = casting.supply - supplyOf(null);
    const expected = supply > 1e-9 ? (casting.records - records[v]!) / supply : 0;
    const seen = Math.min(mostSeen, records[v]!);
    if (expected < fewestExpected) return null;
    const rounded = 2 ** Math.round(Math.log2(expected));
    const key = `${seen} ${rounded}`;
    const one = known.get(key) ?? { seen, expected: rounded };
    known.set(key, one);
    return one;
  });
};

import { type Rarity, rarities } from '../words.ts';
import type { MarketDesign } from './market-design.ts';
import type { PooledLevel } from './pool-evidence.ts';
import { supplyOf } from './rarity-chances.ts';

/**
 * Share of records that are booked under another variation of the car's casting, and how many records this counts
 * for. Common practice, no source.
 */
const assumedShare = 0.03;
const assumedRecords = 100;
/** Fewer records tell nothing of labels: they are taken as they are. */
const fewestRecords = 100;
/** The assumed supply of a rarity counts as so many of its variations. */
const supplyVariations = 5;

/** From here on a record is named as one that may be of another variation: it is likelier to be than not. */
export const doubtfulLabelFrom = 0.5;

/** What can be told of whether records are booked under the variation that was sold. */
export interface LabelDoubt {
  /** Share of the records that are not. */
  share: number;
  /** Chance of each record to be booked rightly; 1 where nothing is doubted. */
  right: Float64Array;
  /** What is left of what each record tells surely, its label being doubted: 0…1 of its weight. */
  sure: Float64Array;
  /**
   * Chance of each record to be of each variation of its casting, in the order of `castingVariations`, from
   * `start[i]` on; and how many records are of each variation by these.
   */
  chances: Float64Array;
  start: Int32Array;
  counts: Float64Array;
  castingVariations: readonly (readonly number[])[];
  /** Rarity of each variation, by its place in `kinds`. */
  kindOf: Int8Array;
}

const kinds: readonly (Rarity | null)[] = [...rarities, null];

/** Whether a sale names a variation that somebody else may have named wrongly. */
const isDoubted = ({ labelled, slots, rarities }: MarketDesign, i: number): boolean =>
  labelled[i] === 1 && slots[i]! < rarities.length;

/** Labels before the first round, all right; null where there are too few records to tell. */
export const newDoubt = (design: MarketDesign): LabelDoubt | null => {
  const { slots, tree } = design;
  const known = design.rarities.length;
  const records = slots.reduce((sum, _, i) => sum + Number(isDoubted(design, i)), 0);
  if (records < fewestRecords) return null;
  const castingVariations: number[][] = Array.from(tree.castingSeries, () => []);
  for (let v = 0; v < known; v++) castingVariations[tree.variationCasting[v]!]!.push(v);
  const start = new Int32Array(slots.length + 1);
  for (let i = 0; i < slots.length; i++) {
    const places = isDoubted(design, i) ? castingVariations[tree.variationCasting[slots[i]!]!]!.length : 0;
    start[i + 1] = start[i]! + places;
  }
  const chances = new Float64Array(start[slots.length]!);
  const counts = new Float64Array(known);
  for (let i = 0; i < slots.length; i++) {
    if (!isDoubted(design, i)) continue;
    const v = slots[i]!;
    chances[start[i]! + castingVariations[tree.variationCasting[v]!]!.indexOf(v)] = 1;
    counts[v]!++;
  }
  const right = new Float64Array(slots.length).fill(1);
  const kindOf = Int8Array.from(design.rarities, rarity =>
    kinds.indexOf(typeof rarity === 'string' ? rarity : null),
  );
  return { share: assumedShare, right, sure: right, chances, start, counts, castingVariations, kindOf };
};

/**
 * How many records a variation of each kind is expected to have before any is seen, in the mean of all 1: as many as
 * such have by the records, and by how common they are.
 */
const expectedCounts = ({ kindOf, counts }: LabelDoubt): number[] => {
  const records = new Float64Array(kinds.length);
  const variations = new Float64Array(kinds.length);
  let all = 0;
  for (let v = 0; v < counts.length; v++) {
    records[kindOf[v]!]! += counts[v]!;
    variations[kindOf[v]!]!++;
    all += counts[v]!;
  }
  const usual = Math.max(1e-9, all / Math.max(1, counts.length));
  return kinds.map(
    (kind, k) =>
      (records[k]! / usual + supplyVariations * supplyOf(kind)) / (variations[k]! + supplyVariations),
  );
};

export interface DoubtInput {
  design: MarketDesign;
  before: LabelDoubt;
  /** Log residual of each sale from the effects that all share, its rarity by its label among them. */
  residuals: Float64Array;
  /** From what the others predict by the label: in standard deviations, and in logs. */
  departures: Float64Array;
  apart: Float64Array;
  /** Variance of one such sale. */
  sale: Float64Array;
  variations: PooledLevel;
  /** Log of the rarity factor of each variation. */
  rarityLogs: Float64Array;
}

/**
 * One step for the labels: a record of a casting is of one of its variations, the likelier the more other records are
 * of that, and is booked rightly but for a share of the records, which is learned; the others are booked under any
 * other variation of the casting. How well its price suits each is told by the other records. A record's chance of
 * being booked rightly is its weight. Beside that it tells less surely: from the information of a complete record is
 * taken what the label leaves open, (1 − chance) × its squared departure in variances of one sale. Steps go half the
 * way, so that records that vouch for each other come to rest. The chances of `before` are written over.
 *
 * Source: Dempster, Laird & Rubin (1977), JRSS B 39, mixtures; Louis (1982), JRSS B 44, the missing information;
 * Asuncion, Welling, Smyth & Teh (2009), Proc. 25th UAI, counts without the record itself.
 */
export const settleDoubt = ({
  design,
  before,
  residuals,
  departures,
  apart,
  sale,
  variations: { mean, variance },
  rarityLogs,
}: DoubtInput): LabelDoubt => {
  const { slots, tree } = design;
  const { start, castingVariations, kindOf, share } = before;
  const expected = expectedCounts(before);
  const right = new Float64Array(slots.length).fill(1);
  const sure = right.slice();
  // The largest of all: each record's chances follow from its own of before, over which they are written.
  const { chances } = before;
  const suits = new Float64Array(castingVariations.reduce((most, { length }) => Math.max(most, length), 0));
  const counts = new Float64Array(before.counts.length);
  let wrong = assumedRecords * assumedShare;
  let records = assumedRecords;
  const levels = Float64Array.from(mean, (one, v) => one + (rarityLogs[v] ?? 0));
  for (let i = 0; i < slots.length; i++) {
    const from = start[i]!;
    if (from === start[i + 1]) continue;
    const v = slots[i]!;
    const one = sale[i]!;
    const level = residuals[i]! + rarityLogs[v]!;
    const places = castingVariations[tree.variationCasting[v]!]!;
    if (places.length === 1) {
      chances[from] = 1;
      counts[v]!++;
      continue;
    }
    const t = departures[i]!;
    const spread = t === 0 ? Math.sqrt(one) : apart[i]! / t;
    const elsewhere = share / (places.length - 1);
    let all = 0;
    for (let k = 0; k < places.length; k++) {
      const u = places[k]!;
      const others = expected[kindOf[u]!]! + Math.max(0, before.counts[u]! - chances[from + k]!);
      let likely: number;
      if (u === v) likely = ((1 - share) * Math.exp((-t * t) / 2)) / spread;
      else {
        const about = one + variance[u]!;
        const away = level - levels[u]!;
        likely = (elsewhere * Math.exp((-away * away) / about / 2)) / Math.sqrt(about);
      }
      suits[k] = others * likely;
      all += others * likely;
    }
    for (let k = 0; k < places.length; k++) {
      const u = places[k]!;
      // A price that suits none of them says nothing of the label.
      const chance = all > 0 ? suits[k]! / all : Number(u === v);
      chances[from + k] = (chance + chances[from + k]!) / 2;
      counts[u]! += chances[from + k]!;
      if (u === v) right[i] = Math.max(1e-6, chances[from + k]!);
    }
    const departure = residuals[i]! - mean[v]!;
    sure[i] = Math.max(0, 1 - ((1 - right[i]!) * departure * departure) / one);
    wrong += 1 - right[i]!;
    records++;
  }
  return { ...before, share: wrong / records, right, sure, chances, counts };
};

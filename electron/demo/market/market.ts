import type { IsoDate } from '../../../valuation/types.ts';
import type { FinishState, Grade, PartName, Rarity } from '../../../valuation/words.ts';
import type { DemoReference } from '../castings/reference.ts';
import { yearsBetween } from '../dates.ts';
import { randomFrom } from '../random.ts';

/**
 * The market from which the demo's sale records are drawn. It is the demo's truth: the collection holds only
 * the records, and tests hold the engine's answers against this.
 */
export interface DemoMarket {
  /** Log price in US dollars of each variation at C10, original, complete, on `atDate`. */
  logPrice: Map<number, number>;
  /** Log price, at the same point, of a casting's common variation. */
  castingLogPrice: Map<number, number>;
  /** How often a variation comes up for sale, relative to the others. */
  supply: Map<number, number>;
  atDate: IsoDate;
  /** Growth of all prices, per year, in logs. */
  drift: number;
  /** Standard deviation of the log of one sale's price about the truth, by kind of source. */
  noise: Record<string, number>;
}

/** Price at each whole grade 1 … 10 relative to C10 in original finish. */
const gradeCurve = [0.045, 0.07, 0.1, 0.15, 0.21, 0.29, 0.4, 0.55, 0.75, 1];

/**
 * A car without its factory finish never reaches an original of the same grade, and its grade matters less.
 */
const finishFactor: Record<FinishState, { level: number; slope: number }> = {
  original: { level: 1, slope: 1 },
  'touched up': { level: 0.74, slope: 0.92 },
  restored: { level: 0.38, slope: 0.8 },
  customised: { level: 0.3, slope: 0.75 },
  stripped: { level: 0.26, slope: 0.65 },
};

const missingFactor: Partial<Record<PartName, number>> = {
  'body finish': 0.7,
  roof: 0.75,
  base: 0.6,
  glazing: 0.72,
  interior: 0.75,
  wheels: 0.68,
  axles: 0.8,
  accessory: 0.62,
  labels: 0.92,
  'post and rivet closure': 0.9,
};
const reproductionShare = 0.45;

const rarityOffset: Record<Rarity, number> = { common: 0, uncommon: 0.32, scarce: 0.85, rare: 1.85 };
const raritySupply: Record<Rarity, number> = { common: 1, uncommon: 0.62, scarce: 0.32, rare: 0.22 };
/** Even the commonest car comes up only so often. */
const mostSupply = 2;
const seriesLevel = [0.3, -0.1, 0.05, -0.28];
const meanLogPrice = Math.log(215);

const truthAtGrade = (grade: Grade): number => {
  const below = Math.floor(grade);
  const low = Math.log(gradeCurve[below - 1]!);
  const high = Math.log(gradeCurve[Math.min(below, 9)]!);
  return low + (high - low) * (grade - below);
};

/** Log price in US dollars of a car of the variation as described, before the noise of a single sale. */
export const trueLogPrice = (
  market: DemoMarket,
  variationId: number,
  on: IsoDate,
  car: { grade: Grade; finishState: FinishState; missing: PartName[]; reproduction: PartName[] },
): number => {
  let log = market.logPrice.get(variationId)!;
  log += market.drift * yearsBetween(market.atDate, on);
  const { level, slope } = finishFactor[car.finishState];
  log += slope * truthAtGrade(car.grade) + Math.log(level);
  for (const part of car.missing) log += Math.log(missingFactor[part] ?? 1);
  for (const part of car.reproduction) log += reproductionShare * Math.log(missingFactor[part] ?? 1);
  return log;
};

/** Draws the market: series, castings within them, variations within those, rarity on top. */
export const makeMarket = (reference: DemoReference): DemoMarket => {
  const random = randomFrom('market of the demo');
  const market: DemoMarket = {
    logPrice: new Map(),
    castingLogPrice: new Map(),
    supply: new Map(),
    atDate: '2026-10-31',
    drift: 0.035,
    noise: { auction: 0.31, dealer: 0.32, fair: 0.35, private: 0.36, listing: 0.35 },
  };
  const castingSupply = new Map<number, number>();
  for (const casting of reference.castings) {
    market.castingLogPrice.set(
      casting.id,
      meanLogPrice + seriesLevel[casting.seriesId - 1]! + random.normal(0, 0.46),
    );
    castingSupply.set(casting.id, Math.exp(random.normal(0, 0.3)));
  }
  for (const variation of reference.variations) {
    const level = market.castingLogPrice.get(variation.castingId)!;
    market.logPrice.set(variation.id, level + rarityOffset[variation.rarity] + random.normal(0, 0.2));
    const asked = Math.exp(random.normal(0, 0.7));
    market.supply.set(
      variation.id,
      random.chance(0.22)
        ? 0
        : Math.min(
            mostSupply,
            castingSupply.get(variation.castingId)! * raritySupply[variation.rarity] * asked,
          ),
    );
  }
  return market;
};

import { assumedCurve } from '../../../valuation/market/assumed-curve.ts';
import { columnPrecisions, curveCells, raritySpan } from '../../../valuation/market/market-columns.ts';
import { isotonic } from '../../../valuation/statistics/isotonic.ts';
import type { AssumptionSet, IsoDate, Market, SaleRecord } from '../../../valuation/types.ts';
import {
  type FinishState,
  finishStates,
  grades,
  type PartName,
  type Rarity,
  rarities,
} from '../../../valuation/words.ts';
import { type Random, seededRandom } from '../random.ts';

/** How a market is drawn. Every figure of the truth is drawn by seed unless it is given. */
export interface MarketWish {
  seed: number;
  series?: number;
  castingsPerSeries?: number;
  variationsPerCasting?: number;
  /** Years of sale records before the effective date. */
  years?: number;
  on?: IsoDate;
  /** Standard deviation of the log of one sale's price. */
  noise?: number;
  /** Fall of the log price from C10 to C1 in original finish. */
  depth?: number;
  /** Standard deviations of the log levels of series, castings and variations about what they belong to. */
  spreads?: { series: number; casting: number; variation: number };
  /** Yearly change of the log price. */
  drift?: number;
  /** Share of records with a wild price, ten times too high or too low. */
  wildShare?: number;
  /** Share of records without a grade. */
  ungradedShare?: number;
  /** Multiplies the number of sale records. */
  density?: number;
  /** Share of records with a missing or reproduction part; their losses are the market's own. */
  incompleteShare?: number;
  /** Noise by Student's t of three degrees of freedom, of the same standard deviation. */
  heavyTails?: boolean;
  /**
   * Rise of the log price to a peak three years ago, and its fall by as much in the year and a half after.
   */
  bubble?: number;
  /** By what factor the noise grows from C10 to C1; its square mean over the grades stays near `noise`. */
  noiseByGrade?: number;
  /** Share of records that are booked under another variation of their casting. */
  mislabelled?: number;
  /** Every record is of this grade. */
  onlyGrade?: number;
  /** No record is of a restored or customised car. */
  noRestored?: boolean;
  /** Shares of records of other sources than auctions, each with what it adds to the log price. */
  sources?: { source: string; share: number; bias: number }[];
  /** Share of variations whose rarity nobody has recorded. */
  unknownRarity?: number;
  /** What is wrong with a car whose record gives no grade: so many points are taken off its grade. */
  ungradedWorse?: number;
  /**
   * Grade curves, finish states, rarities, levels and noise are drawn as this assumption set says that they
   * lie: what the engine is told of the market is then exactly so.
   */
  asAssumed?: AssumptionSet;
}

/** The truth behind a simulated market. */
export interface MarketTruth {
  noise: number;
  drift: number;
  /** Standard deviation of the log of one sale at a grade. */
  noiseAt: (grade: number) => number;
  /** One sale's departure from the median, in logs. */
  draw: (random: Random, grade: number) => number;
  /** Log of the median price at the effective date of a complete car. */
  logPrice: (variationId: number, state: FinishState, grade: number) => number;
  salesOf: (variationId: number) => number;
  /** Log of each finish state's price at C10 against original, and of each rarity's against common. */
  finish: readonly number[];
  rarity: readonly number[];
  /** Log price of each finish state at a grade, against its C10. */
  curves: readonly ((grade: number) => number)[];
  /** Standard deviations of the log levels. */
  spreads: { series: number; casting: number; variation: number };
}

export interface SimulatedMarket {
  market: Market;
  truth: MarketTruth;
  on: IsoDate;
}

const dayOf = (date: IsoDate): number => Date.parse(`${date}T00:00:00Z`) / 86_400_000;
const dateOf = (day: number): IsoDate => new Date(day * 86_400_000).toISOString().slice(0, 10);

const rarityShares = [0.5, 0.28, 0.15, 0.07];
const stateShares = [0.7, 0.07, 0.14, 0.05, 0.04];
const losable: PartName[] = ['glazing', 'accessory', 'wheels', 'labels'];

/** A true grade curve: −depth × ((10 − g)/9)^bend, so that it is no multiple of any assumption. */
const drawCurve = (random: Random, depth: number) => {
  const bend = random.between(0.75, 1.35);
  return (grade: number) => -depth * ((10 - grade) / 9) ** bend;
};

/**
 * A truth drawn from what an assumption set says: each effect of the fit about the assumed one, by its
 * deviation.
 */
const drawAssumed = (random: Random, assumptions: AssumptionSet): Truth => {
  const precisions = columnPrecisions(assumptions.prior, { trend: false, yearly: null });
  const effects = precisions.map(precision =>
    precision >= 1e12 ? 0 : random.normal(0, 1 / Math.sqrt(precision)),
  );
  const at = (cell: Float64Array) => cell.reduce((sum, x, a) => sum + x * effects[a]!, 0);
  const curves = finishStates.map((state, i) => {
    const assumed = assumedCurve(assumptions, state);
    const rising = isotonic(assumed.map((log, step) => log + at(curveCells[i * grades.length + step]!)));
    return (grade: number) => rising[Math.round((Math.max(1, grade) - 1) * 2)]!;
  });
  const finish = finishStates.map(() => 0);
  const rarity = rarities.map(
    one => Math.log(assumptions.rarityFactors[one]) + at(raritySpan(one, assumptions.rarityFactors).cell),
  );
  return { curves, finish, rarity };
};

interface Truth {
  curves: ((grade: number) => number)[];
  finish: number[];
  rarity: number[];
}

const drawTruth = (random: Random, wishedDepth?: number): Truth => {
  const drawnDepth = random.between(1.9, 3.3);
  const depth = wishedDepth ?? drawnDepth;
  const flatter = [
    1,
    random.between(0.8, 1),
    random.between(0.6, 0.9),
    random.between(0.5, 0.9),
    random.between(0.3, 0.8),
  ];
  const curves = finishStates.map((_, i) => drawCurve(random, depth * flatter[i]!));
  const restored = random.normal(-0.75, 0.25);
  const finish = [
    0,
    random.normal(-0.45, 0.15),
    restored,
    // A customised car never brings more than a restored one.
    restored - random.between(0.05, 0.7),
    random.normal(-1.4, 0.3),
  ];
  const rarity = [0, random.between(0.15, 0.6), random.between(0.5, 1.1), random.between(1, 1.9)];
  return { curves, finish, rarity };
};

/** Sales of a variation: a third have none, and the median of all is about two; the rarer, the fewer. */
const drawCount = (random: Random, rarity: number, density: number): number => {
  const none = [0.24, 0.34, 0.45, 0.6][rarity]!;
  if (random.uniform() < none) return 0;
  const scale = [1.35, 1.1, 0.8, 0.5][rarity]!;
  return Math.max(1, Math.round(Math.exp(random.normal(scale, 0.85)) * density));
};

/** The level of the market so many years before the effective date, against that day's. */
const bubbleAt = (age: number, height: number): number => {
  if (age < 1.5) return 0;
  if (age < 3) return (height * (age - 1.5)) / 1.5;
  return Math.max(0, height * (1 - (age - 3) / 2));
};

const drawGrade = (random: Random): number =>
  Math.min(10, Math.max(1, Math.round(random.normal(6, 1.9) * 2) / 2));

/**
 * A market with a known truth: series, castings and variations with levels of their own, rarity and
 * finish-state factors, a grade curve per finish state, drift and noise; and sale records as sparse as real
 * ones, in minor units of USD. The same wish gives the same market.
 */
export const simulateMarket = (wish: MarketWish): SimulatedMarket => {
  const random = seededRandom(wish.seed);
  const { series = 5, castingsPerSeries = 12, variationsPerCasting = 5, years = 8, density = 1 } = wish;
  const on = wish.on ?? '2025-06-30';
  const { asAssumed } = wish;
  const {
    curves,
    finish,
    rarity: rarityLogs,
  } = asAssumed ? drawAssumed(random, asAssumed) : drawTruth(random, wish.depth);
  const noise = wish.noise ?? asAssumed?.prior.within ?? random.between(0.2, 0.42);
  const drift = wish.drift ?? random.between(-0.02, 0.05);
  const drawnSpreads = {
    series: random.between(0.1, 0.5),
    casting: random.between(0.3, 0.7),
    variation: random.between(0.2, 0.5),
  };
  const spreads =
    wish.spreads ??
    (asAssumed
      ? {
          series: asAssumed.prior.betweenSeries,
          casting: asAssumed.prior.betweenCastings,
          variation: asAssumed.prior.betweenVariations,
        }
      : drawnSpreads);
  const partLoss = losable.map(() => random.between(0.08, 0.35));
  const overall = random.between(7.5, 9.5);
  const market: Market = { reportingCurrency: 'USD', castings: [], variations: [], sales: [], rates: [] };
  const levels = new Map<number, number>();
  const counts = new Map<number, number>();
  const today = dayOf(on);
  const noiseAt = (grade: number) => {
    if (wish.noiseByGrade === undefined) return noise;
    return noise * wish.noiseByGrade ** ((6 - grade) / 9);
  };
  const draw = (own: Random, grade: number) => {
    const sd = noiseAt(grade);
    if (!wish.heavyTails) return own.normal(0, sd);
    // Student's t of three degrees of freedom has variance 3.
    const squares = own.normal(0, 1) ** 2 + own.normal(0, 1) ** 2 + own.normal(0, 1) ** 2;
    return (sd * own.normal(0, 1)) / Math.sqrt(squares / 3) / Math.sqrt(3);
  };
  const stateChances = wish.noRestored ? [0.8, 0.1, 0, 0, 0.1] : stateShares;
  const others = (castingId: number, variationId: number) =>
    market.variations.filter(v => v.castingId === castingId && v.id !== variationId);

  const drawSale = (variationId: number, castingId: number): SaleRecord => {
    const state = random.pick(stateChances);
    const grade = wish.onlyGrade ?? drawGrade(random);
    const age = random.uniform() * years;
    const missing = losable.filter(() => random.uniform() < (wish.incompleteShare ?? 0) / losable.length);
    const lost = missing.reduce((log, part) => log + Math.log(1 - partLoss[losable.indexOf(part)]!), 0);
    const wild = random.uniform() < (wish.wildShare ?? 0) ? Math.sign(random.uniform() - 0.5) * Math.LN10 : 0;
    const departure = draw(random, grade);
    const ungraded = random.uniform() < (wish.ungradedShare ?? 0);
    const { source, bias } = wish.sources
      ? [{ source: 'auction', bias: 0 }, ...wish.sources][
          random.pick([
            1 - wish.sources.reduce((sum, { share }) => sum + share, 0),
            ...wish.sources.map(({ share }) => share),
          ])
        ]!
      : { source: 'auction', bias: 0 };
    const trueGrade = ungraded ? Math.max(1, grade - (wish.ungradedWorse ?? 0)) : grade;
    const log =
      levels.get(variationId)! +
      curves[state]!(trueGrade) +
      finish[state]! +
      lost -
      drift * age +
      departure +
      wild +
      bias +
      bubbleAt(age, wish.bubble ?? 0);
    const wrong =
      wish.mislabelled && random.uniform() < wish.mislabelled ? others(castingId, variationId) : [];
    return {
      id: market.sales.length + 1,
      soldOn: dateOf(Math.floor(today - age * 365.25)),
      price: Math.max(1, Math.round(Math.exp(log))),
      currency: 'USD',
      castingId,
      variationId: wrong.length > 0 ? wrong[Math.floor(random.uniform() * wrong.length)]!.id : variationId,
      grade: ungraded ? null : grade,
      finishState: finishStates[state]!,
      missingParts: missing,
      reproductionParts: [],
      reliability: null,
      source,
    };
  };

  for (let s = 1; s <= series; s++) {
    const seriesLevel = overall + random.normal(0, spreads.series);
    for (let c = 0; c < castingsPerSeries; c++) {
      const castingId = market.castings.push({ id: market.castings.length + 1, seriesId: s });
      const castingLevel = seriesLevel + random.normal(0, spreads.casting);
      const variations = Math.max(1, Math.round(random.between(0.5, 1.5) * variationsPerCasting));
      for (let v = 0; v < variations; v++) {
        const rank = random.pick(rarityShares);
        const id = market.variations.length + 1;
        const unknown = wish.unknownRarity ? random.uniform() < wish.unknownRarity : false;
        market.variations.push({ id, castingId, rarity: unknown ? null : (rarities[rank] as Rarity) });
        levels.set(id, castingLevel + rarityLogs[rank]! + random.normal(0, spreads.variation));
        const count = drawCount(random, rank, density);
        counts.set(id, count);
        for (let k = 0; k < count; k++) market.sales.push(drawSale(id, castingId));
      }
    }
  }
  return {
    market,
    on,
    truth: {
      noise,
      drift,
      noiseAt,
      draw,
      finish,
      rarity: rarityLogs,
      curves,
      spreads,
      logPrice: (variationId, state, grade) => {
        const i = finishStates.indexOf(state);
        return levels.get(variationId)! + curves[i]!(grade) + finish[i]!;
      },
      salesOf: variationId => counts.get(variationId)!,
    },
  };
};

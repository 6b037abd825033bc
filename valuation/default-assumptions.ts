import { currencyDecimals } from './money.ts';
import type { AssumptionSet, Currency, PlanDefaults, ThreePoint } from './types.ts';
import { deviationOfOpening } from './words.ts';
import { startingSteps } from './work/steps/index.ts';

/**
 * Cents to minor units of a currency: as many of them, but ten times as many where there are a
 * thousand to the unit.
 */
const scaleOf = (currency: Currency): number => 10 ** Math.max(0, currencyDecimals(currency) - 2);

/** A quarter of what all four wheels take. */
const singleWheel = { missing: 0.08, reproduction: 0.04, periodReplacement: 0.015 };

/** How often work ends so many points below what was aimed at. Common practice, no source. */
const workmanship = [
  { short: 0, share: 0.35 },
  { short: 0.5, share: 0.25 },
  { short: 1, share: 0.2 },
  { short: 2, share: 0.12 },
  { short: 3, share: 0.08 },
];

/**
 * The project's own starting points: common practice, no source, no published guide behind them. Meant to be
 * edited. Amounts are whole minor units of `currency`; where a currency has no decimals, its units are taken
 * as cents are. Throws RangeError when `currency` is no ISO 4217 code.
 */
export const defaultAssumptions = (currency: Currency): AssumptionSet => {
  const scale = scaleOf(currency);
  const cost = (low: number, likely: number, high: number): ThreePoint => ({
    low: low * scale,
    likely: likely * scale,
    high: high * scale,
  });
  const bench: PlanDefaults = {
    targetGrade: 9,
    hours: { low: 2, likely: 3.5, high: 7 },
    lines: [
      {
        name: 'Stripper, candy lacquer and clear coat (primer under enamel only)',
        kind: 'material',
        cost: cost(150, 250, 500),
      },
      { name: 'Metal polish, or plating of the bare body', kind: 'material', cost: cost(50, 120, 600) },
      { name: 'Wheels and axles', kind: 'part', cost: cost(0, 300, 700) },
      { name: 'Share of tools', kind: 'tool', cost: cost(50, 100, 200) },
    ],
    deviations: [deviationOfOpening],
    spoilChance: 0.03,
    spoiledShare: 0.4,
  };
  return {
    label: 'Starting points of the project: common practice, no source. Edit them to your own experience.',
    gradeMultipliers: {
      original: [0.06, 0.1, 0.15, 0.21, 0.29, 0.38, 0.49, 0.62, 0.78, 1],
      'touched up': [0.09, 0.14, 0.2, 0.27, 0.35, 0.44, 0.55, 0.67, 0.82, 1],
      restored: [0.14, 0.2, 0.26, 0.33, 0.41, 0.5, 0.6, 0.72, 0.85, 1],
      customised: [0.14, 0.2, 0.26, 0.33, 0.41, 0.5, 0.6, 0.72, 0.85, 1],
      stripped: [0.2, 0.27, 0.34, 0.42, 0.5, 0.59, 0.68, 0.78, 0.89, 1],
    },
    finishFactors: { original: 1, 'touched up': 0.7, restored: 0.5, customised: 0.35, stripped: 0.25 },
    partLoss: {
      'casting metal': { missing: 0.4, reproduction: 0.2, periodReplacement: 0.15 },
      'body finish': { missing: 0.5, reproduction: 0.3, periodReplacement: 0.1 },
      roof: { missing: 0.3, reproduction: 0.15, periodReplacement: 0.05 },
      base: { missing: 0.35, reproduction: 0.2, periodReplacement: 0.08 },
      glazing: { missing: 0.2, reproduction: 0.1, periodReplacement: 0.03 },
      interior: { missing: 0.2, reproduction: 0.1, periodReplacement: 0.03 },
      'opening parts': { missing: 0.25, reproduction: 0.12, periodReplacement: 0.05 },
      bumpers: { missing: 0.15, reproduction: 0.08, periodReplacement: 0.03 },
      lamps: { missing: 0.1, reproduction: 0.05, periodReplacement: 0.02 },
      wheels: { missing: 0.3, reproduction: 0.15, periodReplacement: 0.06 },
      'front left wheel': singleWheel,
      'front right wheel': singleWheel,
      'rear left wheel': singleWheel,
      'rear right wheel': singleWheel,
      axles: { missing: 0.15, reproduction: 0.04, periodReplacement: 0.02 },
      accessory: { missing: 0.25, reproduction: 0.12, periodReplacement: 0.04 },
      labels: { missing: 0.1, reproduction: 0.06, periodReplacement: 0.02 },
      'post and rivet closure': { missing: 0.1, reproduction: 0.08, periodReplacement: 0.04 },
      // A car without its packaging is the usual one: what packaging adds is `packagingGain`.
      packaging: { missing: 0, reproduction: 0, periodReplacement: 0 },
    },
    packagingGain: 0.4,
    deviationLoss: {
      'another colour': 0.3,
      'other base paint': 0.1,
      'textured roof': 0.1,
      'reproduction wheels': 0.12,
      'reproduction glazing': 0.06,
      'reproduction interior': 0.08,
      'reproduction accessory': 0.08,
      'reproduction labels': 0.05,
      'polished body': 0.1,
      'visible post closure': 0.08,
      'other part': 0.1,
    },
    rarityFactors: { common: 1, uncommon: 1.4, scarce: 2.2, rare: 4 },
    sourceReliability: {
      'own sale': 1,
      auction: 1,
      dealer: 0.8,
      fair: 0.8,
      listing: 0.4,
      hearsay: 0.3,
      'own purchase': 0.8,
      other: 0.7,
    },
    beliefSales: 1,
    unknownGrade: 6,
    halfLifeYears: 10,
    gradeDistanceHalf: 8,
    index: 'records',
    widestEstimate: 8,
    prior: {
      within: 0.35,
      betweenVariations: 0.35,
      betweenCastings: 0.5,
      betweenSeries: 0.3,
      strength: 10,
      gradeStep: 0.1,
      finish: 0.4,
      rarity: 0.35,
      trend: 0.05,
    },
    decision: {
      leastGain: 500 * scale,
      leastProbability: 0.6,
      keepGrade: 7,
      keepRarities: ['scarce', 'rare'],
      sellingFees: 0.12,
      worthCorrelation: 0.7,
      conserveGain: 0.5,
      donorShare: 0.2,
    },
    hourlyRate: 0,
    work: { plansFrom: 'car', workmanship, steps: startingSteps(currency) },
    standardPlan: {
      restore: bench,
      customise: {
        ...bench,
        deviations: ['another colour', deviationOfOpening],
        hours: { low: 2, likely: 4, high: 9 },
      },
      replacedPart: cost(150, 300, 600),
      conserve: { hours: { low: 0.3, likely: 0.6, high: 1.5 }, cost: cost(20, 50, 120) },
      donor: { hours: { low: 0.2, likely: 0.4, high: 1 }, cost: cost(0, 20, 50) },
    },
  };
};

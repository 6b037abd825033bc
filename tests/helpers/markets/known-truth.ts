import type { AssumptionSet } from '../../../valuation/types.ts';
import { finishStates, rarities } from '../../../valuation/words.ts';
import { learnWorkmanship } from '../../../valuation/work/learn-steps.ts';
import { seededRandom } from '../random.ts';
import { turnsOut } from './judged-work.ts';
import type { MarketTruth } from './market-simulator.ts';

/** So many observations count for more than any market has. */
const forCertain = 1e7;
const wholeGrades = Array.from({ length: 10 }, (_, i) => i + 1);

/** What an assumption set can be told of a world's truth, piece by piece. */
export const truths = {
  /** How the work of so many jobs turned out, as an owner of this truth sees it who enters them. */
  'twenty jobs': (_: MarketTruth, { work }: AssumptionSet, seed: number) => {
    const random = seededRandom(seed * 31);
    const ended = Array.from({ length: 20 }, () => {
      const { short } = turnsOut[random.pick(turnsOut.map(({ share }) => share))]!;
      return { aim: 9, reached: 9 - short };
    });
    return { work: { ...work, workmanship: learnWorkmanship(work.workmanship, ended)!.after } };
  },
  workmanship: (_: MarketTruth, { work }: AssumptionSet) => ({ work: { ...work, workmanship: turnsOut } }),
  /** What each finish state and grade brings beside another. */
  curves: ({ curves, finish }: MarketTruth, { prior }: AssumptionSet) => ({
    gradeMultipliers: Object.fromEntries(
      finishStates.map((state, i) => [
        state,
        wholeGrades.map(grade => Math.exp(curves[i]!(grade) - curves[i]!(10))),
      ]),
    ) as AssumptionSet['gradeMultipliers'],
    finishFactors: Object.fromEntries(
      finishStates.map((state, i) => [
        state,
        Math.exp(finish[i]! + curves[i]!(10) - finish[0]! - curves[0]!(10)),
      ]),
    ) as AssumptionSet['finishFactors'],
    prior: { ...prior, gradeStep: 0, finish: 0 },
  }),
  rarities: ({ rarity }: MarketTruth, { prior }: AssumptionSet) => ({
    rarityFactors: Object.fromEntries(
      rarities.map((one, i) => [one, Math.exp(rarity[i]!)]),
    ) as AssumptionSet['rarityFactors'],
    prior: { ...prior, rarity: 0 },
  }),
  /** What one sale varies, and how far variations, castings and series lie from one another. */
  spreads: ({ noise, spreads }: MarketTruth, { prior }: AssumptionSet) => ({
    prior: {
      ...prior,
      within: noise,
      betweenVariations: spreads.variation,
      betweenCastings: spreads.casting,
      betweenSeries: spreads.series,
      strength: forCertain,
    },
  }),
} satisfies Record<
  string,
  (truth: MarketTruth, assumptions: AssumptionSet, seed: number) => Partial<AssumptionSet>
>;

/** The assumption set with some pieces of the truth, one after the other. */
export const toldTruth = (
  assumptions: AssumptionSet,
  truth: MarketTruth,
  seed: number,
  pieces: readonly (keyof typeof truths)[],
): AssumptionSet => {
  let told = assumptions;
  for (const piece of pieces) told = { ...told, ...truths[piece](truth, told, seed) };
  return told;
};

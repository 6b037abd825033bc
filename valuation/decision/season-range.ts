import type { FittedMarket } from '../market/fitted-market.ts';
import { columns } from '../market/market-columns.ts';
import { eightyPercent } from '../statistics/normal.ts';
import type { Range, Subject, Worth } from '../types.ts';
import { finishStates, type Option } from '../words.ts';
import {
  type Condition,
  conservedCondition,
  foundCondition,
  type PossibleEnd,
  plannedConditions,
} from '../worth/car-worths.ts';
import { factorsAt, type SharedFactors, type SharedLoading } from '../worth/shared-factors.ts';
import { proposedPlan } from '../worth/standard-plan.ts';
import { subjectPlace } from '../worth/subject-place.ts';
import { valueCar } from '../worth/value-car.ts';
import { type ConsideredOption, consideredOptions } from './decision-options.ts';
import { expectedGain, meanWorth } from './weigh-option.ts';

const size = columns.count;

/** How an option's gain moves with what cars share. */
export type GainLoading = SharedLoading;

/** The conditions that an option may lead to, each with its chance. */
const conditionsAfter = (
  fitted: FittedMarket,
  subject: Subject,
  option: Exclude<Option, 'leave'>,
): PossibleEnd[] => {
  const { assumptions } = fitted;
  if (option === 'conserve') return [{ condition: conservedCondition(subject, assumptions), share: 1 }];
  // What is left of a donor are its parts: their worth goes with that of a complete car.
  if (option === 'donor') {
    const complete = { ...foundCondition(subject, assumptions), state: 'original' as const };
    return [{ condition: complete, share: 1 }];
  }
  const plan = subject.plan?.kind === option ? subject.plan : proposedPlan(subject, assumptions, option);
  return plannedConditions(plan, assumptions);
};

/**
 * The loading of one option of a car; null where its worths are the owner's own figures, or it is not known
 * what it is.
 */
export const gainLoading = (
  fitted: FittedMarket,
  subject: Subject,
  { option, found, after, fees, spoilChance, spoiledShare }: ConsideredOption,
): GainLoading | null => {
  const place = subjectPlace(fitted, subject);
  if (!place || found.own) return null;
  const at = ({ state, step }: Condition) => factorsAt(fitted, place, finishStates.indexOf(state), step);
  const loading: GainLoading = {
    effects: new Float64Array(size),
    variation: place.variation,
    casting: place.casting,
    series: fitted.inside.index.castingSeries[place.casting]!,
    ofVariation: 0,
    ofCasting: 0,
    ofSeries: 0,
  };
  const add = (factors: SharedFactors, amount: number) => {
    for (let k = 0; k < size; k++) loading.effects[k]! += amount * factors.effects[k]!;
    loading.ofVariation += amount * factors.ofVariation;
    loading.ofCasting += amount * factors.ofCasting;
    loading.ofSeries += amount * factors.ofSeries;
  };
  const done = (1 - fees) * (1 - spoilChance) * meanWorth(after);
  for (const { condition, share } of conditionsAfter(fitted, subject, option))
    add(at(condition), done * share);
  const kept = (1 - fees) * (1 - spoilChance * spoiledShare) * meanWorth(found);
  add(at(foundCondition(subject, fitted.assumptions)), -kept);
  return loading;
};

/** Variance of a lognormal worth. */
const varianceOf = (worth: Worth): number => meanWorth(worth) ** 2 * Math.expm1(worth.logSd ** 2);

/** Variance of one option's gain, the spoiled branch left out; costs vary little beside worths. */
const gainVariance = ({ found, after, fees, correlation }: ConsideredOption): number => {
  const together = meanWorth(found) * meanWorth(after) * Math.expm1(correlation * found.logSd * after.logSd);
  return (1 - fees) ** 2 * (varianceOf(after) + varianceOf(found) - 2 * together);
};

const add = (sums: Map<number, number>, key: number, amount: number) =>
  sums.set(key, (sums.get(key) ?? 0) + amount);
const squares = (sums: Map<number, number>) => [...sums.values()].reduce((sum, x) => sum + x * x, 0);

/**
 * What a season is expected to gain over leaving its cars, in minor units of the reporting currency, with the
 * 80 % range of the sum. The gains go together by what the fit says that the cars' worths share: what is not
 * known of restored cars is not known of any of them. Cars without a value count as nothing.
 */
export const seasonRange = (
  fitted: FittedMarket,
  taken: readonly { subject: Subject; option: Exclude<Option, 'leave'> }[],
): Range => {
  const effects = new Float64Array(size);
  const levels = [new Map<number, number>(), new Map<number, number>(), new Map<number, number>()] as const;
  let mean = 0;
  let variance = 0;
  for (const { subject, option } of taken) {
    const considered = consideredOptions(fitted, subject, valueCar(fitted, subject));
    const one = considered?.find(other => other.option === option);
    if (!one) continue;
    mean += expectedGain(one);
    variance += gainVariance(one);
    const loading = gainLoading(fitted, subject, one);
    if (!loading) continue;
    const own = [loading.ofVariation, loading.ofCasting, loading.ofSeries] as const;
    for (let k = 0; k < size; k++) {
      effects[k]! += loading.effects[k]!;
      variance -= loading.effects[k]! ** 2;
    }
    const places = [loading.variation, loading.casting, loading.series] as const;
    levels.forEach((sums, level) => {
      add(sums, places[level]!, own[level]!);
      variance -= own[level]! ** 2;
    });
  }
  const together =
    effects.reduce((sum, x) => sum + x * x, 0) + levels.reduce((sum, sums) => sum + squares(sums), 0);
  const half = eightyPercent * Math.sqrt(Math.max(0, variance + together));
  return { low: Math.round(mean - half), mid: Math.round(mean), high: Math.round(mean + half) };
};

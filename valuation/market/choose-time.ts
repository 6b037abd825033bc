import type { InTurns } from '../in-turns.ts';
import type { AssumptionSet, TimeModel, TimeTrial } from '../types.ts';
import { type RoundsResult, rowsWith, settleYearly } from './fit-rounds.ts';
import { columnPrecisions, columns } from './market-columns.ts';
import type { MarketDesign } from './market-design.ts';
import { poolEvidence } from './pool-evidence.ts';
import { precisionOf } from './settle-variances.ts';
import { sharedEffects } from './shared-effects.ts';

const width = columns.count + 1;
const models: readonly TimeModel[] = ['none', 'trend', 'steps'];
/**
 * Origins so many years before the effective date. What is sold in the half-year after each is predicted by
 * what lies before, as a car is valued by the sales up to its day.
 */
const origins = [0.5, 1, 1.5, 2, 2.5, 3];
const horizon = 0.5;
/** Fewest records before an origin, and after it, for it to count. */
const fewestBefore = 30;
const fewestAfter = 4;
/** Records used at most: the course of time shows in a sample as well. */
const mostRecords = 3000;
/**
 * Steps of the variance of yearly changes, which has to be learned again from what lies before each origin.
 */
const yearlyRounds = 2;
/** Errors beyond this many standard deviations count as so many: a wild record says nothing of time. */
const mostDeviations = 3;
/**
 * What must be gained to leave things as simple as they are: of the mean error, and in its standard errors (one, the
 * rule of Breiman, Friedman, Olshen & Stone, Classification and Regression Trees (1984), § 3.4.3).
 */
const leastGain = 0.01;
const leastSure = 1;

/** The records alone, every so many of them where there are very many. */
const sampleOf = (records: number): Int32Array => {
  const every = Math.ceil(records / mostRecords);
  return Int32Array.from({ length: Math.floor(records / Math.max(1, every)) }, (_, i) => i * every);
};

/**
 * Error of each record after an origin, in logs, predicted by the records before it under one model of time.
 */
const predict = (
  design: MarketDesign,
  fit: RoundsResult,
  { prior }: AssumptionSet,
  {
    model,
    places,
    before,
    after,
  }: { model: TimeModel; places: Int32Array; before: Uint8Array; after: number[] },
): Float64Array => {
  const rows = rowsWith(design, fit);
  const all = precisionOf(fit, fit.informationScale, fit.variances.within);
  const precision = new Float64Array(all.length);
  for (const i of places) if (before[i]) precision[i] = all[i]!;
  let oldest = 0;
  for (const i of places) if (before[i]) oldest = Math.max(oldest, -rows[i * width + columns.trend]!);
  let yearly = model === 'steps' ? prior.trend ** 2 : null;
  let effects = null as ReturnType<typeof sharedEffects> | null;
  for (let round = 0; round < (model === 'steps' ? yearlyRounds : 1); round++) {
    effects = sharedEffects(
      {
        rows,
        width,
        precision,
        variation: design.slots,
        ...design.tree,
        prior: columnPrecisions(prior, { trend: model === 'trend', yearly }),
      },
      fit.variances,
    );
    if (yearly !== null) yearly = settleYearly(effects, prior.trend ** 2, oldest);
  }
  const { estimate } = effects!;
  const residual = (i: number) => {
    let left = rows[i * width + columns.count]!;
    for (let a = 0; a < columns.count; a++) left -= estimate[a]! * rows[i * width + a]!;
    return left;
  };
  const values = new Float64Array(all.length);
  for (const i of places) if (before[i]) values[i] = residual(i);
  const pooled = poolEvidence({ values, precision, variation: design.slots, ...design.tree }, fit.variances);
  return Float64Array.from(after, i => residual(i) - pooled.variations.mean[design.slots[i]!]!);
};

/**
 * Whether a trend or yearly steps predict the owner's records better than taking prices as they were: the
 * records of each of the last three years are predicted by those before that year, with the variances and
 * weights of the fit without time. The simplest is kept unless another is better by a hundredth of the mean
 * error and by one of its standard errors. Null where too few records lie before and after. Source:
 * rolling-origin evaluation, Tashman (2000), International Journal of Forecasting 16.
 */
export const chooseTime = function* (
  design: MarketDesign,
  fit: RoundsResult,
  assumptions: AssumptionSet,
  records: number,
): InTurns<{ model: TimeModel; trial: TimeTrial } | null> {
  const places = sampleOf(records);
  const age = (i: number) => -design.rows[i * width + columns.trend]!;
  const ceiling = mostDeviations * Math.sqrt(fit.variances.within + fit.variances.betweenVariations);
  const errors: Record<TimeModel, number[]> = { none: [], trend: [], steps: [] };
  for (const origin of origins) {
    const before = new Uint8Array(design.slots.length);
    let count = 0;
    for (const i of places)
      if (age(i) >= origin) {
        before[i] = 1;
        count++;
      }
    const after = Array.from(places).filter(i => age(i) < origin && age(i) >= origin - horizon);
    if (count < fewestBefore || after.length < fewestAfter) continue;
    for (const model of models) {
      yield;
      for (const error of predict(design, fit, assumptions, { model, places, before, after }))
        errors[model].push(Math.min(ceiling, Math.abs(error)));
    }
  }
  const count = errors.none.length;
  if (count === 0) return null;
  const mean = (list: readonly number[]) => list.reduce((a, b) => a + b, 0) / list.length;
  const means = { none: mean(errors.none), trend: mean(errors.trend), steps: mean(errors.steps) };
  const better = (model: TimeModel, than: TimeModel): boolean => {
    const gains = errors[than].map((error, i) => error - errors[model][i]!);
    const gain = mean(gains);
    const spread = Math.sqrt(gains.reduce((sum, x) => sum + (x - gain) ** 2, 0) / Math.max(1, count - 1));
    return gain > leastGain * means[than] && gain > (leastSure * spread) / Math.sqrt(count);
  };
  let model: TimeModel = 'none';
  if (better('steps', 'none')) model = 'steps';
  if (better('trend', 'none') && (model === 'none' || means.trend < means.steps)) model = 'trend';
  return { model, trial: { records: count, errors: means } };
};

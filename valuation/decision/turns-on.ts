import type { FittedMarket } from '../market/fitted-market.ts';
import type { Help, Turning } from '../types.ts';
import type { CarRecommendation, OptionSummary } from './recommend-car.ts';

/** The options that may be recommended, the one that brings most first; of equals the earlier. */
export const rankedOptions = (options: readonly OptionSummary[]): OptionSummary[] =>
  options.filter(option => !option.guarded).sort((a, b) => b.expectedGain - a.expectedGain);

/**
 * What a recommendation turns on, in one fact, for lists. Amounts in minor units of the reporting currency.
 */
export const turnsOn = (
  fitted: FittedMarket,
  { recommendation, plan, options, guards }: CarRecommendation,
  help: readonly Help[],
): Turning => {
  if (recommendation === 'not-enough-evidence' || !plan) return { kind: 'help', help: help[0] ?? null };
  const against = guards.filter(guard => !guard.overruled);
  const [best, next] = rankedOptions(options);
  if (recommendation !== 'leave') {
    if (against.length > 0) return { kind: 'guards', guards: against };
    const other = best?.option === recommendation ? next : best;
    return other
      ? { kind: 'next-best', option: other.option, expectedGain: other.expectedGain }
      : { kind: 'no-other' };
  }
  if (!best) return { kind: 'nothing-possible' };
  const { leastGain, leastProbability } = fitted.assumptions.decision;
  const { option, expectedGain, probability } = best;
  if (against.length > 0 && plan.expectedGain > Math.max(leastGain, expectedGain))
    return { kind: 'guards', guards: against };
  if (expectedGain <= 0) return { kind: 'nothing-pays', nearest: option, expectedGain };
  return expectedGain < leastGain
    ? { kind: 'under-least-gain', option, expectedGain, leastGain }
    : { kind: 'under-least-probability', option, expectedGain, probability, leastProbability };
};

import type { CarRecommendation, FittedMarket, OptionInShort, Subject } from '../../../valuation/index.ts';
import { formatMinor } from '../../../valuation/money.ts';
import type { Option } from '../../../valuation/words.ts';
import type { WeighedCar, WeighedOption } from '../views.ts';
import { planOf, planUse } from './plan-use.ts';

const doing: Record<Option, string> = {
  leave: 'leaving',
  conserve: 'conserving',
  restore: 'restoring',
  customise: 'customising',
  donor: 'using it for parts',
};

/** The options that may be recommended, the one that brings most first; of equals the earlier. */
const ranked = (options: readonly OptionInShort[]): OptionInShort[] =>
  options.filter(option => !option.guarded).sort((a, b) => b.expectedGain - a.expectedGain);

const short = ({ option, expectedGain, probability, cost }: OptionInShort): WeighedOption => ({
  option,
  expectedGain,
  probability,
  cost,
});

/** What stands against painting it, each guard by its first clause. */
const keeping = ({ guards }: CarRecommendation): string | null => {
  const standing = guards.filter(guard => !guard.overruled);
  return standing.length === 0
    ? null
    : standing.map(({ sentence }) => `${sentence.split(/[:.] /)[0]}.`).join(' ');
};

/** What the recommendation turns on: a guard, a floor, or the next best option. */
const whyLine = (fitted: FittedMarket, recommended: CarRecommendation, help: readonly string[]): string => {
  const { recommendation, plan, options } = recommended;
  if (recommendation === 'not-enough-evidence' || !plan) return help[0] ?? 'There are too few sale records.';
  const money = (minor: number) => formatMinor(minor, fitted.reportingCurrency);
  const signed = (minor: number) => `${minor < 0 ? '−' : '+'}${money(Math.abs(minor))}`;
  const kept = keeping(recommended);
  const [best, next] = ranked(options);
  if (recommendation !== 'leave') {
    if (kept) return kept;
    const other = best?.option === recommendation ? next : best;
    return other ? `Next best is ${doing[other.option]}, ${signed(other.expectedGain)}.` : '';
  }
  if (!best) return 'Nothing else can be done with it.';
  const { leastGain, leastProbability } = fitted.assumptions.decision;
  if (kept && plan.expectedGain > Math.max(leastGain, best.expectedGain)) return kept;
  if (best.expectedGain <= 0)
    return `Nothing pays; the nearest is ${doing[best.option]}, ${signed(best.expectedGain)}.`;
  const brings = `${doing[best.option]} brings ${signed(best.expectedGain)}`;
  const sentence = brings.charAt(0).toUpperCase() + brings.slice(1);
  return best.expectedGain < leastGain
    ? `${sentence}, under your least gain of ${money(leastGain)}.`
    : `${sentence}, but pays in only ${Math.round(best.probability * 100)} % of cases; you ask for ${Math.round(leastProbability * 100)} %.`;
};

/** A car's decision in short, from the options as they were weighed. */
export const weighedOf = (
  fitted: FittedMarket,
  subject: Subject,
  recommended: CarRecommendation,
  help: readonly string[],
): Omit<WeighedCar, 'car'> => {
  const { recommendation, plan, options, guards } = recommended;
  const chosen = options.find(({ option }) => option === recommendation) ?? ranked(options)[0];
  return {
    shown: chosen ? short(chosen) : null,
    plan: plan && {
      ...short(plan),
      guarded: plan.guarded,
      guards: guards.filter(guard => !guard.overruled).map(({ kind, sentence }) => ({ kind, sentence })),
    },
    ...planUse(planOf(fitted, subject)),
    why: whyLine(fitted, recommended, help),
  };
};

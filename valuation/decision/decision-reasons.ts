import { formatMinor } from '../money.ts';
import type { Currency, Decision, Evidence, Fidelity, OptionResult } from '../types.ts';
import { deviationLabel, type Option } from '../words.ts';

const doing: Record<Option, string> = {
  leave: 'Leaving it',
  conserve: 'Conserving it',
  restore: 'Restoring it',
  customise: 'Customising it',
  donor: 'Using it for its parts',
};

export interface ReasonsInput {
  decision: Pick<Decision, 'recommendation' | 'best' | 'breakEven' | 'options'>;
  /** The option that the plan (or the standard plan) stands for. */
  planned: Option;
  ownPlan: boolean;
  evidence: Evidence;
  fidelity: Fidelity;
  /** The owner's own figure stands in for evidence. */
  own: boolean;
  leastGain: number;
  leastProbability: number;
  fees: number;
  currency: Currency;
}

const percent = (share: number) => `${Math.round(share * 100)} %`;
const plural = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;

const evidenceSentence = ({ sales, castingSales, credibility, shares, doubtful }: Evidence): string => {
  const parts: [number, string][] = [
    [credibility, `this variation's ${plural(sales, 'sale')}`],
    [shares.casting, `its casting's ${castingSales}`],
    [shares.series + shares.everything, 'its series and the rest'],
  ];
  const rests = parts
    .filter(([share]) => Math.round(share * 100) > 0)
    .map(([share, what]) => `${percent(share)} ${what}`)
    .join(', ');
  const doubt =
    doubtful.length > 0
      ? ` ${plural(doubtful.length, 'record')} of its casting ${doubtful.length === 1 ? 'is' : 'are'} doubtful and ${doubtful.length === 1 ? 'counts' : 'count'} little.`
      : '';
  return `The worth rests on ${rests}.${doubt}`;
};

/** The reasons for a recommendation, in plain sentences, the weightiest first. Amounts are in the reporting currency. */
export const decisionReasons = (input: ReasonsInput): string[] => {
  const { decision, planned, currency, leastGain, leastProbability } = input;
  const money = (minor: number) => formatMinor(minor, currency);
  const reasons: string[] = [];
  const result = (option: Option): OptionResult | undefined =>
    decision.options.find(o => o.option === option);
  const compare = ({ option, expectedGain, probability, cost }: OptionResult) => {
    const change = expectedGain >= 0 ? `${money(expectedGain)} more` : `${money(-expectedGain)} less`;
    const after = cost.high > 0 ? `, after ${money(cost.mid)} of cost` : '';
    const fees = input.fees > 0 ? `${after ? ' and' : ', after'} selling costs` : '';
    return `${doing[option]} is expected to bring ${change} than leaving it${after}${fees}, and beats leaving in ${Math.round(probability * 100)} of 100 cases.`;
  };
  const plan = result(planned)!;
  const recommended = decision.recommendation as Option;
  if (recommended !== 'leave') reasons.push(compare(result(recommended)!));
  for (const guard of plan.guards) reasons.push(guard.sentence);
  if (recommended !== planned && (recommended === 'leave' || plan.guards.length === 0))
    reasons.push(compare(plan));
  if (recommended === 'leave') {
    const best = decision.best === 'leave' ? undefined : result(decision.best);
    if (best && best.option !== planned) reasons.push(compare(best));
    if (!best) reasons.push('Nothing that could be done to it is expected to bring more than it costs.');
    else if (best.expectedGain < leastGain)
      reasons.push(`That is under the least gain of ${money(leastGain)} that you ask for.`);
    else reasons.push(`That is under the ${percent(leastProbability)} of cases that you ask for.`);
  }
  if (decision.breakEven) {
    const { restoredWorth, cost } = decision.breakEven;
    const verb = planned === 'customise' ? 'Customising' : 'Restoring';
    const or = cost > 0 ? `, or costs under ${money(cost)}` : '; no cost is low enough';
    reasons.push(
      recommended === planned
        ? `${verb} goes on paying as long as it brings ${money(restoredWorth)} or more, and costs under ${money(cost)}.`
        : `${verb} pays only if it brings ${money(restoredWorth)} or more${or}.`,
    );
  }
  if (!input.ownPlan) reasons.push('No plan was made for it: the standard plan was taken.');
  if (input.fidelity.deviations.length > 0)
    reasons.push(
      `The plan departs from the factory specification (${input.fidelity.deviations.map(deviationLabel).join(', ')}).`,
    );
  reasons.push(
    input.own
      ? 'The worth is your own figure: there are too few sale records.'
      : evidenceSentence(input.evidence),
  );
  return reasons;
};

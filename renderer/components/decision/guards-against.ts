import type { Decision, Guard } from '../../../valuation/index.ts';
import type { Option } from '../../../valuation/words.ts';

/** What stands against an option, overruled before or not: choosing it all the same needs a reason each time. */
export const guardsAgainst = (decision: Pick<Decision, 'options'>, option: Option): Guard[] =>
  decision.options.find(result => result.option === option)?.guards ?? [];

/** The guards of all options, each once. */
export const guardsOf = (decision: Pick<Decision, 'options'>): Guard[] => {
  const all = decision.options.flatMap(option => option.guards);
  return all.filter((guard, place) => all.findIndex(other => other.kind === guard.kind) === place);
};

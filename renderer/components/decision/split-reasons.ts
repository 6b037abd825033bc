import type { Decision } from '../../../valuation/types.ts';
import { guardsOf } from './guards-against.ts';

const saysEven = (reason: string) => / goes on paying as long as | pays only if /.test(reason);

/** The reason that names the worth and the cost at which the recommendation turns. */
export const evenSentence = (reasons: readonly string[]): string | undefined => reasons.find(saysEven);

/** The reasons without those that are shown apart: the break-even and the guards. */
export const otherReasons = (decision: Pick<Decision, 'reasons' | 'options'>): string[] => {
  const guards = new Set(guardsOf(decision).map(guard => guard.sentence));
  return decision.reasons.filter(reason => !saysEven(reason) && !guards.has(reason));
};

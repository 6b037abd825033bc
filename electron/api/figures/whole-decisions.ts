import { type Decision, decideCar, type FittedMarket, type Subject } from '../../../valuation/index.ts';

/** Whole decisions kept for each market at most; some kilobytes each. */
const most = 3000;

const kept = new WeakMap<FittedMarket, Map<string, Decision>>();

/** A car's whole decision, kept while the market and all that counts of the car stay the same. */
export const wholeDecision = (fitted: FittedMarket, subject: Subject): Decision => {
  const decisions = kept.get(fitted) ?? new Map<string, Decision>();
  kept.set(fitted, decisions);
  // Cars alike in all that counts share one.
  const key = JSON.stringify({ ...subject, id: 0 });
  const found = decisions.get(key);
  if (found) return { ...found, id: subject.id };
  const decision = decideCar(fitted, subject);
  decisions.set(key, decision);
  const [oldest] = decisions.keys();
  if (decisions.size > most && oldest !== undefined) decisions.delete(oldest);
  return decision;
};

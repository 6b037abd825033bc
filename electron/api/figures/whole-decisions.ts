import { type Decision, decideCar, type FittedMarket, type Subject } from '../../../valuation/index.ts';
import { BoundedMap, slot } from '../session/cache.ts';
import type { Session } from '../session/session.ts';

/** Whole decisions remembered at most; some kilobytes each. */
const bound = 3000;

const decided = slot<{ fitted: FittedMarket; decisions: BoundedMap<string, Decision> } | null>(() => null);

/** A car's whole decision, remembered while the market and all that counts of the car stay the same. */
export const wholeDecision = (session: Session, fitted: FittedMarket, subject: Subject): Decision => {
  let held = session.cache.of(decided);
  if (held?.fitted !== fitted) {
    held = { fitted, decisions: new BoundedMap(bound) };
    session.cache.put(decided, held);
  }
  // Cars alike in all that counts share one.
  const key = JSON.stringify({ ...subject, id: 0 });
  const found = held.decisions.get(key);
  if (found) return { ...found, id: subject.id };
  const decision = decideCar(fitted, subject);
  held.decisions.set(key, decision);
  return decision;
};

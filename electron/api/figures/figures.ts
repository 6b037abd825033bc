import { readSubjects } from '../../../db/engine/subjects.ts';
import { recordReads } from '../../../db/reads.ts';
import type { CarRecord } from '../../../db/records/cars.ts';
import {
  type Decision,
  decideCar,
  type FittedMarket,
  type PlanKind,
  type Recommendation,
  recommendCar,
  type Subject,
  type Valuation,
  valueCar,
} from '../../../valuation/index.ts';
import { BoundedMap, slot } from '../session/cache.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { DecisionSummary, Worths } from '../views.ts';
import { decisionSummary } from './decision-summary.ts';
import { marketToday } from './market.ts';

/** What lists show of a car's valuation and decision; the rest is worked out again where it is asked for. */
export interface CarFigures {
  worths: Worths;
  recommendation: Recommendation;
  probability: number | null;
  expectedGain: number | null;
  /** Its decision in short. */
  weighed: Omit<DecisionSummary, 'car'>;
}

/** Of these, what a row of a list says. */
export type RowFigures = Pick<CarFigures, 'worths' | 'recommendation' | 'probability' | 'expectedGain'>;

/** The same figures from a whole decision. */
export const figuresOfDecision = (
  valuation: Valuation,
  decision: Decision,
  planned: PlanKind,
): RowFigures => {
  const { recommendation, probability, expectedGain, options } = decision;
  const known = recommendation !== 'not-enough-evidence';
  return {
    worths: {
      asFound: valuation.asFound,
      restored: valuation.restored,
      originalFinish: valuation.originalFinish,
      cost: options.find(({ option }) => option === planned)?.cost ?? null,
    },
    recommendation,
    probability: known ? probability : null,
    expectedGain: known ? expectedGain : null,
  };
};

interface Held {
  fitted: FittedMarket;
  /** What reading a car's subject reads. */
  reads: Set<string>;
  /** Cars that are alike in all that counts share their figures. */
  alike: BoundedMap<string, CarFigures>;
  /** By car id: the car as it was, when what hangs on it was read, and the figures. */
  cars: Map<number, { car: string; at: number; figures: CarFigures }>;
}

/** Figures shared by cars that are alike, at most. */
export const mostAlike = 5000;
/** The figures that a session holds. */
export const heldFigures = slot<Held | null>(() => null);

/** Works a car's figures out, with the market and subject that are given. */
export const figuresOf = (fitted: FittedMarket, subject: Subject): CarFigures => {
  const valuation = valueCar(fitted, subject);
  const recommended = recommendCar(fitted, subject, valuation);
  const { recommendation, probability, expectedGain, plan } = recommended;
  return {
    worths: {
      asFound: valuation.asFound,
      restored: valuation.restored,
      originalFinish: valuation.originalFinish,
      cost: plan?.cost ?? null,
    },
    recommendation,
    probability,
    expectedGain,
    weighed: decisionSummary(fitted, subject, recommended, valuation.help),
  };
};

/**
 * Figures of the given cars. Those of a car are worked out again only where the market, or the car itself
 * (its grade, parts, plan, …), has changed.
 */
export const carFigures = async (session: Session, cars: CarRecord[]): Promise<Map<number, CarFigures>> => {
  const { cache } = session;
  const fitted = await marketToday(session);
  let state = cache.of(heldFigures);
  if (state?.fitted !== fitted) {
    state = { fitted, reads: new Set(), alike: new BoundedMap(mostAlike), cars: new Map() };
    cache.put(heldFigures, state);
  }
  const { alike, reads } = state;
  const changed = cache.lastChange(reads);
  const written = new Map(cars.map(car => [car.id, JSON.stringify(car)]));
  const unsure = cars.filter(({ id }) => {
    const found = state.cars.get(id);
    return !found || found.at < changed || found.car !== written.get(id);
  });
  const at = cache.now();
  if (unsure.length > 0)
    for (const subject of await readSubjects(recordReads(openOf(session).read.db, reads), unsure)) {
      const from = JSON.stringify({ ...subject, id: 0 });
      const figures = alike.get(from) ?? figuresOf(fitted, subject);
      if (!alike.has(from)) alike.set(from, figures);
      state.cars.set(subject.id, { car: written.get(subject.id) ?? '', at, figures });
    }
  // A list of most of them tells which are no longer there.
  if (cars.length * 2 >= state.cars.size)
    for (const id of state.cars.keys()) if (!written.has(id)) state.cars.delete(id);
  return new Map(
    cars.flatMap(({ id }) => {
      const found = state.cars.get(id);
      return found ? [[id, found.figures] as const] : [];
    }),
  );
};

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

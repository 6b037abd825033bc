import { setImmediate as othersTurn } from 'node:timers/promises';
import { pieces } from '../../../db/codec.ts';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { tablesOfCars } from '../../../db/history/changes.ts';
import { recordReads } from '../../../db/reads.ts';
import { listCars } from '../../../db/records/cars.ts';
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
import { refused } from '../session/errors.ts';
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
  /** By car id: when the car and what hangs on it were read, and the figures. */
  cars: Map<number, { at: number; figures: CarFigures }>;
}

/** Figures shared by cars that are alike, at most. */
export const mostAlike = 5000;
/** The figures that a session holds. */
export const heldFigures = slot<Held | null>(() => null);

const heldOn = (session: Session, fitted: FittedMarket): Held => {
  const held = session.cache.of(heldFigures);
  if (held?.fitted === fitted) return held;
  const made: Held = { fitted, reads: new Set(), alike: new BoundedMap(mostAlike), cars: new Map() };
  session.cache.put(heldFigures, made);
  return made;
};

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

const tables = slot<Set<string> | null>(() => null);

/** The tables of which every row belongs to one car: a change in them touches that car and no other. */
const carTables = (session: Session): Set<string> => {
  const known = session.cache.of(tables) ?? tablesOfCars(openOf(session).read.sqlite);
  session.cache.put(tables, known);
  return known;
};

/** So many cars are read together, and so many worked out before other calls have their turn. */
const readTogether = 5000;
const beforeOthers = 100;

/** Tells of a car whether its figures are to be worked out: it is new, it was touched, or something changed on which all depend. */
const staleness = (session: Session, { cars, reads }: Held) => {
  const { cache } = session;
  const byCar = carTables(session);
  const common = cache.lastChange([...reads].filter(source => !byCar.has(source)));
  return (id: number): boolean => {
    const found = cars.get(id);
    return !found || found.at < common || found.at < cache.lastTouched(id);
  };
};

const workOut = async (session: Session, state: Held, ids: number[]): Promise<void> => {
  const open = openOf(session);
  const { cache } = session;
  const at = cache.now();
  const db = recordReads(open.read.db, state.reads);
  const subjects = await readSubjects(db, await listCars(db, { ids }));
  const found = new Set(subjects.map(({ id }) => id));
  for (const id of ids) if (!found.has(id)) state.cars.delete(id);
  for (const [i, subject] of subjects.entries()) {
    if (i % beforeOthers === beforeOthers - 1) {
      await othersTurn();
      if (session.collection !== open) throw refused('The collection was closed meanwhile.', 'no-collection');
    }
    // Another call may have been here meanwhile.
    if ((state.cars.get(subject.id)?.at ?? -1) >= at) continue;
    const from = JSON.stringify({ ...subject, id: 0 });
    const figures = state.alike.get(from) ?? figuresOf(state.fitted, subject);
    if (!state.alike.has(from)) state.alike.set(from, figures);
    state.cars.set(subject.id, { at, figures });
  }
};

/**
 * Figures of the given cars, by id. Those of a car are worked out again only where the market has changed, or the car itself (its grade,
 * parts, plan, …) was touched by an action; other calls are answered in between.
 */
export const figuresById = async (
  session: Session,
  ids: readonly number[],
): Promise<(id: number) => CarFigures | undefined> => {
  const state = heldOn(session, await marketToday(session));
  const stale = ids.filter(staleness(session, state));
  for (const piece of pieces(stale, readTogether))
    await workOut(session, state, piece.filter(staleness(session, state)));
  // Cars that are gone are no longer asked for.
  if (state.cars.size > ids.length && ids.length * 2 >= state.cars.size) {
    const asked = new Set(ids);
    for (const id of state.cars.keys()) if (!asked.has(id)) state.cars.delete(id);
  }
  return id => state.cars.get(id)?.figures;
};

/** The same as a map of those cars that are there. */
export const carFigures = async (
  session: Session,
  cars: readonly { id: number }[],
): Promise<Map<number, CarFigures>> => {
  const of = await figuresById(
    session,
    cars.map(({ id }) => id),
  );
  return new Map(
    cars.flatMap(({ id }) => {
      const figures = of(id);
      return figures ? [[id, figures] as const] : [];
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

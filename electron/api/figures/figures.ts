import { hash } from 'node:crypto';
import { setImmediate as othersTurn } from 'node:timers/promises';
import { pieces } from '../../../db/codec.ts';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { tablesOfCars } from '../../../db/history/changes.ts';
import { recordReads } from '../../../db/reads.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
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
import { mainlyOwn } from '../../../valuation/wording/evidence-text.ts';
import { BoundedMap, slot } from '../session/cache.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { DecisionSummary, Worths } from '../views.ts';
import { decisionSummary } from './decision-summary.ts';
import { isFittedToday, marketToday } from './market.ts';
import { Packed } from './packed.ts';

/** What lists show of a car's valuation and decision; the rest is worked out again where it is asked for. */
export interface CarFigures {
  worths: Worths;
  recommendation: Recommendation;
  probability: number | null;
  expectedGain: number | null;
  /** Its decision in short. */
  weighed: Omit<DecisionSummary, 'car' | 'onBench'>;
}

/** Of these, what a row of a list says. */
export type RowFigures = Pick<CarFigures, 'worths' | 'recommendation' | 'probability' | 'expectedGain'>;

/**
 * What the worths mainly rest on, where that is no sale records; an owner's own figure rests on nothing else.
 */
const restsOn = ({ asFound, evidence }: Valuation): Pick<Worths, 'restsOn'> => {
  const own = asFound && !asFound.own ? mainlyOwn(evidence) : undefined;
  return own ? { restsOn: own } : {};
};

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
      ...restsOn(valuation),
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
  packed: Packed<CarFigures>;
  /** Of each of the packed figures the hash of what they were worked out from beside the market, and their place by it. */
  from: string[];
  places: Map<string, number>;
  /** By car id, the place of the figures of those cars that nothing has touched since; cars that are alike share them. */
  cars: Map<number, number>;
  /** The most cars that had figures at once. */
  most: number;
  /** Up to when all changes have been heard of. */
  at: number;
  /** Another object whenever the figures of all cars were let go of. */
  basis: object;
}

/** So many figures that no car has any longer are held, or as many as the cars have: undone, an edit finds its own again. */
export const mostSpare = 5000;
/** The figures that a session holds. */
export const heldFigures = slot<Held | null>(() => null);

const heldOn = (session: Session, fitted: FittedMarket): Held => {
  const held = session.cache.of(heldFigures);
  if (held?.fitted === fitted) return held;
  const made: Held = {
    fitted,
    reads: new Set(),
    packed: new Packed(),
    from: [],
    places: new Map(),
    cars: new Map(),
    most: 0,
    at: session.cache.now(),
    basis: {},
  };
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
      ...restsOn(valuation),
    },
    recommendation,
    probability,
    expectedGain,
    weighed: decisionSummary(fitted, subject, recommended, valuation.help),
  };
};

/** So many cars are read together, and so many worked out before other calls have their turn. */
const readTogether = 5000;
const beforeOthers = 100;

/** When something last changed on which the figures of all cars depend. */
const lastOfAll = (session: Session, { reads }: Held): number => {
  // A change in one of these touches its car and no other.
  const byCar = tablesOfCars(openOf(session).read.sqlite);
  return session.cache.lastChange([...reads].filter(source => !byCar.has(source)));
};

/** Lets go of the figures of cars that were touched, or that something touched on which all depend. */
const letGo = (session: Session, state: Held): void => {
  const { cache } = session;
  const touched = lastOfAll(session, state) > state.at ? null : cache.touchedAfter(state.at);
  if (!touched) state.basis = {};
  for (const id of touched ?? state.cars.keys()) state.cars.delete(id);
  state.at = cache.now();
};

/** Lets go of figures that no car has, where there are too many. What was given before stands on what was there. */
const tidy = (state: Held): void => {
  state.most = Math.max(state.most, state.cars.size);
  if (state.packed.size <= state.most + Math.max(mostSpare, state.most)) return;
  const used = [...new Set(state.cars.values())];
  const placeOf = new Map(used.map((place, i) => [place, i]));
  state.packed = state.packed.only(used);
  state.from = used.map(place => state.from[place]!);
  state.places = new Map(state.from.map((from, place) => [from, place]));
  state.cars = new Map(Array.from(state.cars, ([id, place]) => [id, placeOf.get(place)!]));
};

/**
 * Works out the figures of these cars, while other calls are answered; returns the ids of those that there
 * are.
 */
const workOut = async (session: Session, state: Held, ids: number[]): Promise<Set<number>> => {
  const open = openOf(session);
  const { cache } = session;
  const at = cache.now();
  const db = recordReads(open.read.db, state.reads);
  const subjects = await readSubjects(db, await listCars(db, { ids }));
  const isStillSo = (id: number) =>
    cache.now() === at || Math.max(cache.lastTouched(id), lastOfAll(session, state)) <= at;
  for (const [i, subject] of subjects.entries()) {
    if (i % beforeOthers === beforeOthers - 1) {
      await othersTurn();
      if (session.collection !== open) throw refused('The collection was closed meanwhile.', 'no-collection');
      if (session.cache.of(heldFigures) !== state) break;
    }
    // Another call may have been here meanwhile, or an action.
    if (state.cars.has(subject.id) || !isStillSo(subject.id)) continue;
    const from = hash('sha1', JSON.stringify({ ...subject, id: 0 }), 'base64');
    let place = state.places.get(from);
    if (place === undefined) {
      place = state.packed.add(figuresOf(state.fitted, subject));
      state.from[place] = from;
      state.places.set(from, place);
    }
    state.cars.set(subject.id, place);
  }
  return new Set(subjects.map(({ id }) => id));
};

/** The figures of cars; of those that an action touches afterwards it may have none. */
export interface Figures {
  /** All of a car's, made anew; nothing of a car that is not there. */
  of(id: number): CarFigures | undefined;
  /**
   * What `choose` takes of a car's: for going through many cars, as nothing else is made. It chooses a part, and works
   * nothing out from numbers.
   */
  column<Part>(choose: (figures: CarFigures) => Part): (id: number) => Part | undefined;
  /** Cars of which nothing differs that counts have one place; places of the same `packed` can be compared. */
  placeOf(id: number): number | undefined;
  packed: object;
}

/** The figures of no cars. */
export const noFigures: Figures = {
  of: () => undefined,
  column: () => () => undefined,
  placeOf: () => undefined,
  packed: {},
};

const figuresFrom = ({ cars, packed }: Held): Figures => {
  const column = <Part>(choose: (figures: CarFigures) => Part) => {
    const at = packed.column(choose);
    return (id: number) => {
      const place = cars.get(id);
      return place === undefined ? undefined : at(place);
    };
  };
  return { of: column(figures => figures), column, placeOf: id => cars.get(id), packed };
};

/**
 * Figures of the given cars; to be asked at once. Those of a car are worked out again only where
 * the market has changed, or an action touched the car itself (its grade, parts, plan, …); other calls
 * are answered in between.
 */
export const figuresById = async (session: Session, ids: readonly number[]): Promise<Figures> => {
  const state = heldOn(session, await marketToday(session));
  letGo(session, state);
  // What an action touches while others are worked out is worked out after them.
  const gone = new Set<number>();
  const isMissing = (id: number) => !state.cars.has(id) && !gone.has(id);
  for (let missing = ids.filter(isMissing); missing.length > 0; missing = ids.filter(isMissing)) {
    const there = new Set<number>();
    for (const piece of pieces(missing, readTogether))
      for (const id of await workOut(session, state, piece)) there.add(id);
    // The market was fitted anew meanwhile: the rest would be of the one before.
    if (session.cache.of(heldFigures) !== state) return figuresById(session, ids);
    letGo(session, state);
    for (const id of missing) if (!there.has(id)) gone.add(id);
  }
  tidy(state);
  return figuresFrom(state);
};

/**
 * What all figures follow from beside their own car: the market, and an object that is the same as long as those
 * of untouched cars stand.
 */
export const basisOfFigures = async (session: Session): Promise<{ fitted: FittedMarket; basis: object }> => {
  const state = heldOn(session, await marketToday(session));
  letGo(session, state);
  return { fitted: state.fitted, basis: state.basis };
};

/** So many cars are worked out so soon that nobody minds waiting. */
const soon = 2000;

/**
 * How far the figures of so many cars are: for how many they are there, and whether the others will be so soon
 * that they can be waited for; they will not where the market has to be fitted first.
 */
export const figuresThere = async (
  session: Session,
  cars: number,
): Promise<{ done: number; isNear: boolean }> => {
  if (!(await isFittedToday(session))) {
    // Those of a market that is no more only take room.
    if (cars > soon) session.cache.put(heldFigures, null);
    return { done: 0, isNear: cars <= soon };
  }
  const state = heldOn(session, await marketToday(session));
  letGo(session, state);
  const done = Math.min(cars, state.cars.size);
  return { done, isNear: cars - done <= soon };
};

/** `figuresById` as a map of those cars that are there. */
export const carFigures = async (
  session: Session,
  cars: readonly { id: number }[],
): Promise<Map<number, CarFigures>> => {
  const { of } = await figuresById(
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

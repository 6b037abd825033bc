import { hash } from 'node:crypto';
import { setImmediate as othersTurn } from 'node:timers/promises';
import { pieces } from '../../../db/codec.ts';
import { readSubjects } from '../../../db/engine/subjects.ts';
import { recordReads } from '../../../db/reads.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { type Decision, decideCar, type FittedMarket, type Subject } from '../../../valuation/index.ts';
import { BoundedMap, slot } from '../session/cache.ts';
import { refused } from '../session/errors.ts';
import { easeHeap, heedHeap } from '../session/large-heap.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { underWay } from '../session/under-way.ts';
import type { WorkingOut } from '../views.ts';
import { type CarFigures, figuresOf } from './car-figures.ts';
import {
  figuresHeld,
  figuresOfBefore,
  figuresOnMarket,
  type HeldFigures,
  heldFigures,
  isOnMarket,
  lastOfAll,
  letGo,
  type OnMarket,
  tidy,
} from './held-figures.ts';
import { isFittedToday } from './market.ts';

/**
 * So many cars are read together, and so many worked out before other calls have their turn. What hangs on few cars is
 * read by their numbers, and what is read of them is let go of before V8 takes it for something that stays.
 */
const readTogether = 500;
const beforeOthers = 100;

/**
 * Works out the figures of these cars, while other calls are answered; returns the ids of those that there
 * are.
 */
const workOut = async (session: Session, state: OnMarket, ids: number[]): Promise<Set<number>> => {
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

const figuresFrom = ({ cars, packed }: HeldFigures): Figures => {
  const column = <Part>(choose: (figures: CarFigures) => Part) => {
    const at = packed.column(choose);
    return (id: number) => {
      const place = cars.get(id);
      return place === undefined ? undefined : at(place);
    };
  };
  return { of: column(figures => figures), column, placeOf: id => cars.get(id), packed };
};

const workedOut = async (session: Session, ids: readonly number[]): Promise<Figures> => {
  const state = await figuresHeld(session);
  letGo(session, state);
  if (!isOnMarket(state)) {
    if (ids.every(id => state.cars.has(id))) return figuresFrom(state);
    await figuresOnMarket(session);
    return workedOut(session, ids);
  }
  // What an action touches while others are worked out is worked out after them.
  const gone = new Set<number>();
  const isMissing = (id: number) => !state.cars.has(id) && !gone.has(id);
  for (let missing = ids.filter(isMissing); missing.length > 0; missing = ids.filter(isMissing)) {
    heedHeap(missing.length);
    const there = new Set<number>();
    for (const piece of pieces(missing, readTogether))
      for (const id of await workOut(session, state, piece)) there.add(id);
    // The market was fitted anew meanwhile: the rest would be of the one before.
    if (session.cache.of(heldFigures) !== state) return workedOut(session, ids);
    letGo(session, state);
    for (const id of missing) if (!there.has(id)) gone.add(id);
  }
  tidy(state);
  return figuresFrom(state);
};

/**
 * Figures of the given cars; to be asked at once. Those of a car are worked out again only where
 * the market has changed, or an action touched the car itself (its grade, parts, plan, …); other calls
 * are answered in between.
 */
export const figuresById = async (session: Session, ids: readonly number[]): Promise<Figures> => {
  try {
    return await workedOut(session, ids);
  } finally {
    easeHeap();
  }
};

/**
 * What all figures follow from beside their own car: the market, and an object that is the same as long as those
 * of untouched cars stand.
 */
export const basisOfFigures = async (session: Session): Promise<{ fitted: FittedMarket; basis: object }> => {
  const state = await figuresOnMarket(session);
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
  const kept = await figuresOfBefore(session);
  if (kept) return { done: Math.min(cars, kept.cars.size), isNear: cars - kept.cars.size <= soon };
  if (!(await isFittedToday(session))) {
    // Those of a market that is no more only take room; of those of the session before that is not known yet.
    if (cars > soon && session.cache.of(heldFigures)?.fitted) session.cache.put(heldFigures, null);
    return { done: 0, isNear: cars <= soon };
  }
  const state = await figuresOnMarket(session);
  letGo(session, state);
  const done = Math.min(cars, state.cars.size);
  return { done, isNear: cars - done <= soon };
};

/** The last figures of all cars of a list, which it shows while others are worked out. */
const listed = slot<Figures | null>(() => null);
const beginAll = underWay();

/**
 * The figures by which a list of all these cars is sorted, filtered and summed. Where those of many have to be worked out
 * anew, such as after a sale record in a large collection, those of before come back at once, with how far the new ones are.
 */
export const figuresForList = async (
  session: Session,
  ids: readonly number[],
): Promise<{ figures: Figures; workingOut: WorkingOut | null }> => {
  const { cache } = session;
  const [at, today] = [cache.now(), await session.today()];
  const workOutAll = async () => {
    const figures = await figuresById(session, ids);
    cache.put(listed, figures);
    return figures;
  };
  const before = cache.of(listed);
  const { done, isNear } = before ? await figuresThere(session, ids.length) : { done: 0, isNear: true };
  if (!before || isNear) return { figures: await workOutAll(), workingOut: null };
  beginAll(session, { at, today }, workOutAll);
  return { figures: before, workingOut: { done, of: ids.length } };
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

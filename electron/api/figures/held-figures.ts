import { deserialize, serialize } from 'node:v8';
import { tablesOfCars } from '../../../db/history/changes.ts';
import type { FittedMarket } from '../../../valuation/index.ts';
import { slot } from '../session/cache.ts';
import { heedHeap } from '../session/large-heap.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CarFigures } from './car-figures.ts';
import { isFittedToday, marketText, marketToday } from './market.ts';
import { Packed, type PackedColumns } from './packed.ts';
import { PlacesById, placesOf } from './places-by-id.ts';

/** The figures that a session holds, all of one market. */
export interface HeldFigures {
  /** The market; null while these are of the session before and nothing has asked for it. */
  fitted: FittedMarket | null;
  /** Of those of the session before: what their market was made of, when they were read, and how many there were. */
  before: { market: string; at: number; day: string; cars: number; places: number } | null;
  /** What reading a car's subject reads. */
  reads: Set<string>;
  packed: Packed<CarFigures>;
  /** Of each of the packed figures the hash of what they were worked out from beside the market, and their place by it. */
  from: string[];
  places: Map<string, number>;
  /** By car id, the place of the figures of those cars that nothing has touched since; cars that are alike share them. */
  cars: PlacesById;
  /** The most cars that had figures at once. */
  most: number;
  /** Up to when all changes have been heard of. */
  at: number;
  /** Another object whenever the figures of all cars were let go of. */
  basis: object;
}

/** Those whose market is fitted, so that others can be worked out beside them. */
export type OnMarket = HeldFigures & { fitted: FittedMarket };

export const isOnMarket = (state: HeldFigures): state is OnMarket => state.fitted !== null;

/** So many figures that no car has any longer are held, or as many as the cars have: undone, an edit finds its own again. */
export const mostSpare = 5000;
/** Those of fewer cars are worked out again when the collection is opened: it takes less than a second. */
export const fewestKept = 1000;
export const heldFigures = slot<HeldFigures | null>(() => null);

/** When something last changed on which the figures of all cars depend. */
export const lastOfAll = (session: Session, { reads }: HeldFigures): number => {
  // A change in one of these touches its car and no other.
  const byCar = tablesOfCars(openOf(session).read.sqlite);
  return session.cache.lastChange([...reads].filter(source => !byCar.has(source)));
};

/** Lets go of the figures of cars that were touched, or that something touched on which all depend. */
export const letGo = (session: Session, state: HeldFigures): void => {
  const { cache } = session;
  const touched = lastOfAll(session, state) > state.at ? null : cache.touchedAfter(state.at);
  if (!touched) state.basis = {};
  if (touched) for (const id of touched) state.cars.delete(id);
  else state.cars.clear();
  state.at = cache.now();
};

/** Lets go of figures that no car has, where there are too many. What was given before stands on what was there. */
export const tidy = (state: HeldFigures): void => {
  state.most = Math.max(state.most, state.cars.size);
  if (state.packed.size <= state.most + Math.max(mostSpare, state.most)) return;
  const used = [...new Set(Array.from(state.cars, ([, place]) => place))];
  const placeOf = new Map(used.map((place, i) => [place, i]));
  state.packed = state.packed.only(used);
  state.from = used.map(place => state.from[place]!);
  state.places = new Map(state.from.map((from, place) => [from, place]));
  state.cars = placesOf(Array.from(state.cars, ([id, place]) => [id, placeOf.get(place)!]));
};

/** How the figures outlive a session. */
interface Written extends PackedColumns {
  market: string;
  reads: string[];
  from: string[];
  cars: Float64Array;
  places: Uint32Array;
}

const name = 'figures';

/** The figures as the next session may take them; null where they are few, or not those of the market as it is now. */
const written = async (session: Session): Promise<Uint8Array | null> => {
  const state = session.cache.of(heldFigures);
  if (!state) return null;
  if (state.fitted && !(await isFittedToday(session))) return null;
  const market = await marketText(session);
  const stands = state.fitted
    ? state.fitted === (await marketToday(session))
    : state.before?.market === market;
  if (!stands || session.cache.of(heldFigures) !== state) return null;
  letGo(session, state);
  if (state.cars.size < fewestKept) return null;
  const columns: Written = {
    ...state.packed.columns(),
    market,
    reads: [...state.reads],
    from: state.from,
    cars: Float64Array.from(state.cars, ([id]) => id),
    places: Uint32Array.from(state.cars, ([, place]) => place),
  };
  return serialize(columns);
};

const isNew = (state: HeldFigures | null): boolean =>
  state !== null && (state.before?.cars !== state.cars.size || state.before.places !== state.packed.size);

/** The figures that the session before has kept. */
const readKept = async (session: Session): Promise<HeldFigures | null> => {
  const found = await session.kept.of(name);
  if (!found) return null;
  const { bytes, at, today: day } = found;
  const { market, reads, from, cars, places, ...columns }: Written = deserialize(bytes);
  heedHeap(cars.length);
  const packed = Packed.of<CarFigures>(columns);
  return {
    fitted: null,
    before: { market, at, day, cars: cars.length, places: packed.size },
    reads: new Set(reads),
    packed,
    from,
    places: new Map(from.map((one, place) => [one, place])),
    cars: placesOf(Array.from(cars, (id, i) => [id, places[i]!])),
    most: cars.length,
    at,
    basis: {},
  };
};

const taking = slot<{ done: Promise<void> | null }>(() => ({ done: null }));

/** Takes the figures of the session before, once, and has those of this one kept. */
const takeKept = (session: Session): Promise<void> => {
  const { cache } = session;
  const once = cache.of(taking);
  once.done ??= (async () => {
    session.kept.keep(name, {
      isNew: () => isNew(cache.of(heldFigures)),
      make: () => written(session),
    });
    // What cannot be read is worked out.
    const found = await readKept(session).catch(() => null);
    if (found && cache.of(taking) === once && cache.of(heldFigures) === null) cache.put(heldFigures, found);
  })();
  return once.done;
};

/**
 * The figures held on today's market, which is fitted for it where it is not. Those of the session before are among them where
 * their market was made of the same.
 */
export const figuresOnMarket = async (session: Session): Promise<OnMarket> => {
  const { cache } = session;
  await takeKept(session);
  const fitted = await marketToday(session);
  const held = cache.of(heldFigures);
  if (held && isOnMarket(held) && held.fitted === fitted) return held;
  if (held?.before && !held.fitted) {
    const isSame = held.before.market === (await marketText(session));
    // Another call may have been here meanwhile, or an action.
    if (cache.of(heldFigures) !== held || (await marketToday(session)) !== fitted)
      return figuresOnMarket(session);
    if (isSame) return Object.assign(held, { fitted });
  }
  const made: OnMarket = {
    ...{ fitted, before: null, reads: new Set(), packed: new Packed(), from: [], places: new Map() },
    ...{ cars: new PlacesById(), most: 0, at: cache.now(), basis: {} },
  };
  cache.put(heldFigures, made);
  return made;
};

/** The figures of the session before, for which no market is fitted, while nothing has changed since the opening. */
export const figuresOfBefore = async (session: Session): Promise<HeldFigures | null> => {
  await takeKept(session);
  const day = await session.today();
  const held = session.cache.of(heldFigures);
  const stands = held?.before?.at === session.cache.now() && held.before.day === day;
  return stands && !held.fitted ? held : null;
};

/** The figures held: those of the session before where they stand by themselves, else those on today's market. */
export const figuresHeld = async (session: Session): Promise<HeldFigures> =>
  (await figuresOfBefore(session)) ?? figuresOnMarket(session);

import type { Changes } from '../../../db/history/changes.ts';

/**
 * Where something is held between calls; made when it is first asked for, gone when the collection closes.
 */
export interface Slot<T> {
  make: () => T;
}

export const slot = <T>(make: () => T): Slot<T> => ({ make });

/** A map that lets go of what was set longest ago beyond `bound` entries. */
export class BoundedMap<K, V> extends Map<K, V> {
  readonly #bound: number;

  constructor(bound: number) {
    super();
    this.#bound = bound;
  }

  override set(key: K, value: V): this {
    super.delete(key);
    super.set(key, value);
    const [oldest] = this.keys();
    if (this.size > this.#bound && oldest !== undefined) this.delete(oldest);
    return this;
  }
}

/** All that a session holds to answer faster, and what has changed since. */
export interface SessionCache {
  /** Counts the changes; an answer is good while nothing that it has read changed after its time. */
  now(): number;
  /** The time of the last change of any of these sources, in the names of `db/reads.ts`. */
  lastChange(sources: Iterable<string>): number;
  /** The time at which a car, or what hangs on it, was last changed; 0 for one that was not. */
  lastTouched(car: number): number;
  /** The cars touched after a time; null where there were too many to tell. */
  touchedAfter(at: number): number[] | null;
  changed(changes: Changes): void;
  /** What is held in a slot. */
  of<T>(slot: Slot<T>): T;
  /** Puts another thing in a slot. */
  put<T>(slot: Slot<T>, value: T): void;
  /** Lets go of everything, as on closing. */
  clear(): void;
}

/** So many cars are told apart; where more were touched, all count as touched. */
const mostTouched = 50_000;

export const createCache = (): SessionCache => {
  let clock = 0;
  /** When everything, and when every car, last counted as changed. */
  let all = 0;
  let allCars = 0;
  const changes = new Map<string, number>();
  /** The time of each car's last change. */
  const touched = new Map<number, number>();
  const held = new Map<Slot<unknown>, unknown>();
  return {
    now: () => clock,
    lastChange(sources) {
      let last = all;
      for (const source of sources) last = Math.max(last, changes.get(source) ?? 0);
      return last;
    },
    lastTouched: car => Math.max(allCars, touched.get(car) ?? 0),
    touchedAfter(at) {
      if (at < allCars) return null;
      return [...touched].flatMap(([car, when]) => (when > at ? [car] : []));
    },
    changed({ sources, cars }) {
      clock += 1;
      for (const source of sources) changes.set(source, clock);
      for (const car of cars) touched.set(car, clock);
      if (touched.size <= mostTouched) return;
      allCars = clock;
      touched.clear();
    },
    of<T>(wanted: Slot<T>): T {
      if (!held.has(wanted)) held.set(wanted, wanted.make());
      return held.get(wanted) as T;
    },
    put: (wanted, value) => {
      held.set(wanted, value);
    },
    clear() {
      clock += 1;
      all = clock;
      allCars = clock;
      changes.clear();
      touched.clear();
      held.clear();
    },
  };
};

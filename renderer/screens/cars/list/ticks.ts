import { useSyncExternalStore } from 'react';

/**
 * The cars that are ticked for a change in bulk. Kept beside the grid, so that a tick draws its own
 * cell and no other.
 */
export class Ticks {
  private ids: ReadonlySet<number> = new Set();
  /** Counts the changes. */
  version = 0;
  private listeners = new Set<() => void>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  readonly get = (): ReadonlySet<number> => this.ids;

  set(ids: Iterable<number>): void {
    this.ids = new Set(ids);
    this.version += 1;
    for (const listener of this.listeners) listener();
  }

  /** Ticks all of them, or where all are ticked already none. */
  toggle(ids: readonly number[]): void {
    const next = new Set(this.ids);
    const all = ids.every(id => next.has(id));
    for (const id of ids) {
      if (all) next.delete(id);
      else next.add(id);
    }
    this.set(next);
  }
}

export const useTicked = (ticks: Ticks): ReadonlySet<number> =>
  useSyncExternalStore(ticks.subscribe, ticks.get);
export const useIsTicked = (ticks: Ticks, id: number): boolean =>
  useSyncExternalStore(ticks.subscribe, () => ticks.get().has(id));
